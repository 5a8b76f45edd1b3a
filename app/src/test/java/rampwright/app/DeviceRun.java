package rampwright.app;

import java.io.StringWriter;
import java.time.Instant;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.Timekeeper;
import rampwright.app.cli.Screen;
import rampwright.app.cli.Services;
import rampwright.app.cli.Terminal;
import rampwright.app.usecase.ArmingPermit;
import rampwright.app.usecase.DevicePorts;

/** Commands in this process with real connections and the machine's clocks. */
final class DeviceRun {
  static final Timekeeper TIME =
      new Timekeeper() {
        @Override
        public long nanos() {
          return System.nanoTime();
        }

        @Override
        public Instant utc() {
          return Instant.now();
        }
      };

  private DeviceRun() {}

  /** The program's own word on arming, from the heat account. */
  static ArmingPermit heatPermit() {
    return Wiring.permit("1", TIME::utc);
  }

  static DevicePorts ports(ArmingPermit permit) {
    return new DevicePorts(new DeviceLinks(TIME), TIME, permit);
  }

  static CommandRun.Answer run(ArmingPermit permit, Object... words) {
    return run(permit, name -> null, words);
  }

  /** Runs a command line where the heat account says what the permit says. */
  static CommandRun.Answer run(
      ArmingPermit permit, UnaryOperator<@Nullable String> environment, Object... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Services services =
        new Services(
            Wiring.traceFiles(),
            Wiring.analyzer(),
            Wiring.charts(),
            Wiring.predictions(),
            Wiring.heat(),
            Wiring.readiness(),
            into -> 0,
            "1",
            1,
            TIME::utc,
            environment,
            ports(permit));
    String[] args = Stream.of(words).map(Object::toString).toArray(String[]::new);
    int exit = new Terminal(new Screen(out, err, false), services).run(args);
    return new CommandRun.Answer(exit, out.toString(), err.toString());
  }
}
