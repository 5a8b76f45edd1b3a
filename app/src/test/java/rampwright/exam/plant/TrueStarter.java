package rampwright.exam.plant;

/**
 * The starter as it really is: what it believes of the torque and the current is a little off.
 *
 * <p>Formula: estimate = gain T (1 + slope x) + offset, x = speed / synchronous speed; it limits
 * where its reading {@code currentGain I} is at the limit; asked for a share k of the supply
 * voltage it gives k + bend k (1 - k).
 *
 * @param enteredCurrentA the rated current it was told: the one on the plate
 * @param gain of the torque estimate
 * @param offset of the torque estimate, share of rated torque
 * @param slope of the torque estimate with speed
 * @param currentGain of the current reading
 * @param bend of the voltage
 * @param distortion RMS over fundamental of the current is sqrt(1 + (distortion (1 - k))^2)
 * @param lagS time constant with which the voltage follows
 * @param timeLimitS after which a start that is not over is given up
 */
public record TrueStarter(
    double enteredCurrentA,
    double gain,
    double offset,
    double slope,
    double currentGain,
    double bend,
    double distortion,
    double lagS,
    double timeLimitS) {}
