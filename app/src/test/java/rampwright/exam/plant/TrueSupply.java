package rampwright.exam.plant;

/**
 * The supply as it really is, per phase of the equivalent star.
 *
 * @param lineVoltageV line-to-line voltage without load, mean of the three
 * @param resistanceOhm per phase
 * @param reactanceOhm per phase
 * @param lineShares each line-to-line voltage over the mean: 12, 23, 31; not to be written to
 * @param currentShares each phase current over the mean; not to be written to
 */
@SuppressWarnings("ArrayRecordComponent")
public record TrueSupply(
    double lineVoltageV,
    double resistanceOhm,
    double reactanceOhm,
    double[] lineShares,
    double[] currentShares) {}
