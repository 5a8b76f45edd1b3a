package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * A trace without what no motor circuit can have done: values that are no numbers, a meter's code
 * for "no reading", lone absurd values, negative RMS values, a channel connected the wrong way
 * round, a direct offset that stands at rest. What was taken as missing or turned is said, one
 * finding a channel.
 *
 * @param trace the trace itself where nothing was wrong
 * @param findings what was done
 */
record SoundTrace(Trace trace, List<Finding> findings) {

  static SoundTrace of(Trace trace, TraceKind kind, MotorContext motor) {
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    List<Finding> findings = new ArrayList<>();
    boolean changed = false;
    for (ChannelName name : trace.names()) {
      Samples raw = trace.channel(name);
      if (raw == null) {
        continue;
      }
      SoundChannelBuilder mended = new SoundChannelBuilder(trace, name, raw);
      mend(mended, kind, motor);
      Finding finding = mended.finding();
      if (finding != null) {
        findings.add(finding);
      }
      findings.addAll(mended.turned());
      channels.put(name, mended.samples());
      changed |= mended.samples() != raw;
    }
    return changed
        ? new SoundTrace(
            new Trace(trace.time(), channels, trace.declaredKind(), trace.provenance()), findings)
        : new SoundTrace(trace, findings);
  }

  private static void mend(SoundChannelBuilder channel, TraceKind kind, MotorContext motor) {
    channel.dropInfinite();
    Quantity quantity = channel.name().quantity();
    boolean alternating =
        quantity == Quantity.CURRENT
            || quantity == Quantity.LINE_VOLTAGE
            || quantity == Quantity.PHASE_VOLTAGE;
    if (quantity == Quantity.SPEED) {
      Plausible most = Plausible.speed(motor.ratedSpeedRpm());
      channel.dropCodes(most);
      channel.turnIfNegative("the shaft turns in reverse, or the pickup counts so");
      channel.dropLone(most);
      channel.dropJumps(kind == TraceKind.WAVEFORM);
    } else if (alternating && kind == TraceKind.RMS) {
      boolean current = quantity == Quantity.CURRENT;
      Plausible most =
          current
              ? Plausible.current(motor.ratedCurrentA(), channel.rateHz())
              : Plausible.voltage(voltage(motor));
      channel.dropCodes(most);
      channel.turnIfNegative("the transducer's output is the wrong way round");
      channel.dropNegative(current ? motor.ratedCurrentA() : voltage(motor));
      channel.dropLone(most);
    } else if (alternating) {
      channel.dropLoneSamples(motor.ratedFrequencyHz());
      if (quantity == Quantity.CURRENT) {
        channel.takeOffOffset(motor.ratedFrequencyHz(), motor.ratedCurrentA());
      }
    }
  }

  private static @Nullable Double voltage(MotorContext motor) {
    return motor.supplyVoltageV() != null ? motor.supplyVoltageV() : motor.ratedVoltageV();
  }
}
