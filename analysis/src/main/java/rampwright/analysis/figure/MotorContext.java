package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;

/**
 * What is known about the motor circuit besides the trace. Every part may be missing (null);
 * figures that need it then say so.
 *
 * @param ratedCurrentA motor rated current In where currents are measured, A RMS: of the line, or
 *     of a winding
 * @param ratedSpeedRpm motor rated speed nr
 * @param ratedFrequencyHz supply frequency on the nameplate
 * @param ratedVoltageV rated voltage, line to line
 * @param supplyVoltageV declared supply voltage, line to line
 * @param lockedRotorCurrentRatio locked-rotor current over In
 * @param lockedRotorTimeColdS safe locked-rotor time from cold
 * @param lockedRotorTimeHotS safe locked-rotor time from running temperature
 * @param windingResistanceOhm line to line, at 20 °C
 * @param totalInertiaKgM2 motor and load, referred to the motor shaft
 * @param pipeLengthM length of the pipe a pump feeds
 * @param waveSpeedMPerS pressure wave speed in that pipe
 * @param flowVelocityMPerS flow velocity in that pipe before the stop
 * @param startsPerHour starts an hour the motor is made for
 * @param currentsInWindings whether currents are measured in the windings of a delta; then they are
 *     no line currents and make no power with line voltages
 * @param cableOhm resistance a phase between where voltages are measured and the starter; 0 where
 *     they are measured at the starter
 */
public record MotorContext(
    @Nullable Double ratedCurrentA,
    @Nullable Double ratedSpeedRpm,
    @Nullable Double ratedFrequencyHz,
    @Nullable Double ratedVoltageV,
    @Nullable Double supplyVoltageV,
    @Nullable Double lockedRotorCurrentRatio,
    @Nullable Double lockedRotorTimeColdS,
    @Nullable Double lockedRotorTimeHotS,
    @Nullable Double windingResistanceOhm,
    @Nullable Double totalInertiaKgM2,
    @Nullable Double pipeLengthM,
    @Nullable Double waveSpeedMPerS,
    @Nullable Double flowVelocityMPerS,
    @Nullable Double startsPerHour,
    boolean currentsInWindings,
    double cableOhm) {

  /** Nothing is known. */
  public static final MotorContext UNKNOWN =
      new MotorContext(
          null, null, null, null, null, null, null, null, null, null, null, null, null, null, false,
          0);
}
