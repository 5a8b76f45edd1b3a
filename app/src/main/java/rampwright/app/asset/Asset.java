package rampwright.app.asset;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.MotorContext;
import rampwright.app.envelope.Envelope;

/**
 * One motor circuit: motor, starter, supply, load, and what is asked of its trials.
 *
 * @param id short name, unique among a person's assets
 * @param name what people call it
 * @param site where it is; null when not said
 * @param zone whose clocks the people there go by; null when not said
 * @param motor nameplate
 * @param starter null when not said
 * @param load null when not said
 * @param supply null when not said
 * @param pipe for pumps; null when not said
 * @param envelope the target; empty when nothing is asked
 */
public record Asset(
    String id,
    String name,
    @Nullable String site,
    @Nullable ZoneId zone,
    Motor motor,
    @Nullable Starter starter,
    @Nullable Load load,
    @Nullable Supply supply,
    @Nullable Pipe pipe,
    Envelope envelope) {

  /**
   * What the analysis needs to know of the circuit. Where the trace's currents were taken inside a
   * delta, the rated current is that of a winding (line current over the square root of 3), so that
   * ratios stay those of the motor.
   */
  public MotorContext context() {
    boolean inWinding = starter != null && starter.measured() == Starter.Wiring.INSIDE_DELTA;
    Double motorInertia = motor.inertiaKgM2();
    Double loadInertia = load == null ? null : load.inertiaKgM2();
    Double totalInertia =
        motorInertia == null || loadInertia == null ? null : motorInertia + loadInertia;
    return new MotorContext(
        inWinding ? motor.ratedCurrentA() / Math.sqrt(3) : motor.ratedCurrentA(),
        motor.ratedSpeedRpm(),
        motor.ratedFrequencyHz(),
        motor.ratedVoltageV(),
        supply == null ? null : supply.voltageV(),
        motor.lockedRotorCurrentRatio(),
        motor.lockedRotorTimeColdS(),
        motor.lockedRotorTimeHotS(),
        motor.windingResistanceOhm(),
        totalInertia,
        pipe == null ? null : pipe.lengthM(),
        pipe == null ? null : pipe.waveSpeedMPerS(),
        pipe == null ? null : pipe.velocityMPerS(),
        motor.startsPerHour(),
        inWinding,
        supply == null ? 0 : supply.cableBehindMeter().resistanceOhm());
  }
}
