package rampwright.acquisition.bench;

/**
 * What meters would see at an instant, without noise.
 *
 * @param currentA RMS line current, the same in each phase, A
 * @param lineVoltageV RMS line-to-line voltage on the starter's line side, V
 * @param speedRpm shaft speed, 1/min
 * @param run whether the run command is given
 */
public record BenchReading(double currentA, double lineVoltageV, double speedRpm, boolean run) {}
