package rampwright.acquisition.record;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.MapFiles;

/**
 * A start and a stop as readings of two devices: a meter that reads two currents and a tachometer.
 * In 100 A, nr 1480 rpm; at rest until 10 s, 350 A while speeding up until 16 s, 90 A running until
 * 30 s, ramp down until 34 s, at rest at 36 s.
 */
final class MadeStart {
  static final double RATED_A = 100;
  static final double RATED_RPM = 1480;

  private MadeStart() {}

  static List<ChannelMap> maps() throws Exception {
    return List.of(
        MapFiles.parse(
            "meter.map.toml",
            """
            [device]
            name = "meter"
            link = "tcp"
            host = "127.0.0.1"
            poll_hz = 20
            [[channel]]
            name = "i1"
            function = 3
            address = 0
            type = "u16"
            unit = "A"
            [[channel]]
            name = "i2"
            function = 3
            address = 1
            type = "u16"
            unit = "A"
            """),
        MapFiles.parse(
            "tacho.map.toml",
            """
            [device]
            name = "tacho"
            link = "lines"
            serial_port = "/dev/x"
            poll_hz = 10
            separator = ";"
            [[channel]]
            name = "speed"
            field = 1
            unit = "rpm"
            """));
  }

  static double currentA(double t) {
    if (t < 10 || t >= 34) {
      return 0;
    }
    return t < 16 ? 350 : t < 30 ? 90 : 90 + 20 * (t - 30);
  }

  static double speedRpm(double t) {
    if (t < 10.5 || t >= 36) {
      return 0;
    }
    return t < 16 ? 1480 * (t - 10.5) / 5.5 : t < 30 ? 1480 : 1480 * (36 - t) / 6;
  }

  /** All events from 0 to 60 s in order of time; noise of 0.5 A and 1 rpm. */
  static List<DeviceEvent> events(long seed) {
    Random random = new Random(seed);
    List<DeviceEvent> events = new ArrayList<>();
    for (int k = 0; k < 60 * 20; k++) {
      double t = k * 0.05 + 0.002 * random.nextDouble();
      events.add(
          new DeviceEvent.Reading(
              0,
              0,
              Math.round(t * 1e9),
              2_000_000,
              100_000,
              1,
              new int[] {0, 1},
              new double[] {
                Math.abs(currentA(t) + 0.5 * random.nextGaussian()),
                Math.abs(currentA(t) + 0.5 * random.nextGaussian())
              },
              "00010002"));
    }
    for (int k = 0; k < 60 * 10; k++) {
      double t = k * 0.1 + 0.031;
      events.add(
          new DeviceEvent.Reading(
              1,
              0,
              Math.round(t * 1e9),
              0,
              0,
              1,
              new int[] {0},
              new double[] {Math.abs(speedRpm(t) + random.nextGaussian())},
              "x"));
    }
    events.sort(Comparator.comparingLong(DeviceEvent::atNs));
    return events;
  }

  static RecordPlan plan(Path trials, TriggerKind on) throws Exception {
    return plan(trials, on, EndKind.STOPPED, 120);
  }

  static RecordPlan plan(Path trials, TriggerKind on, EndKind until, double longestS)
      throws Exception {
    return new RecordPlan(
        trials,
        maps(),
        on,
        until,
        5,
        longestS,
        RATED_A,
        RATED_RPM,
        (at, remark) -> "[trial]\nat = " + at + "\n",
        List.of("made up"),
        true);
  }
}
