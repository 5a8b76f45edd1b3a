package rampwright.app.json;

import java.nio.file.Path;
import java.util.List;
import rampwright.acquisition.record.DeviceQuality;
import rampwright.acquisition.record.LiveView;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.watch.WatchStatus;
import rampwright.app.result.BenchSheet;
import rampwright.app.result.Probe;

/** The JSON texts of what devices said. */
public final class DeviceJson {
  private DeviceJson() {}

  /** A trial that was recorded. */
  public static String recorded(RecordedTrial trial) {
    return new JsonText()
        .object(
            out -> {
              out.text("trial", trial.folder().toString());
              out.text("ended", trial.ended());
              out.number("length_s", trial.lengthS());
              out.array(
                  "devices",
                  devices -> {
                    for (DeviceQuality device : trial.quality()) {
                      devices.object(body -> quality(body, device));
                    }
                  });
              out.texts("remarks", trial.remarks());
            })
        .finish();
  }

  /** A recording that was given up before anything began. */
  public static String nothing(String ended) {
    return new JsonText()
        .object(
            out ->
                out.text("trial", null)
                    .text("ended", ended)
                    .number("length_s", null)
                    .array("devices", devices -> {})
                    .texts("remarks", List.of()))
        .finish();
  }

  /** Where a bench is found. */
  public static String bench(BenchSheet bench) {
    return new JsonText()
        .object(
            out ->
                out.text("asset", bench.asset())
                    .object(
                        "tcp",
                        tcp ->
                            tcp.text("host", BenchSheet.HOST)
                                .count("port", bench.tcpPort())
                                .count("unit", bench.unit()))
                    .object(
                        "digit_worth",
                        digit ->
                            digit
                                .number("current_A", bench.currentA())
                                .number("voltage_V", bench.voltageV())
                                .number("speed_rpm", bench.speedRpm()))
                    .text("settings", bench.settings().toString())
                    .texts("maps", bench.maps().stream().map(Path::toString).toList()))
        .finish();
  }

  private static void quality(JsonText json, DeviceQuality device) {
    json.text("device", device.name());
    json.count("readings", device.readings());
    json.number("hz", device.hz());
    json.number("round_trip_ms", device.roundTripMs());
    json.number("round_trip_p99_ms", device.roundTripP99Ms());
    json.number("late_p99_ms", device.lateP99Ms());
    json.count("retries", device.retries());
    json.count("faults", device.faults());
    json.array(
        "gaps",
        gaps -> {
          for (DeviceQuality.Gap gap : device.gaps()) {
            gaps.object(
                body ->
                    body.number("from_s", gap.fromS())
                        .number("to_s", gap.toS())
                        .text("why", gap.why()));
          }
        });
  }

  /** What devices said when they were read once. */
  public static String probes(List<Probe> probes) {
    return new JsonText()
        .object(
            out ->
                out.array(
                    "devices",
                    devices -> {
                      for (Probe probe : probes) {
                        devices.object(body -> probe(body, probe));
                      }
                    }))
        .finish();
  }

  /** How a watch stands. */
  public static String status(WatchStatus status) {
    return new JsonText()
        .object(
            out -> {
              out.text("at", status.at().toString());
              out.text("since", status.since().toString());
              out.text("state", status.state());
              out.number(
                  "free_MiB", status.freeBytes() < 0 ? null : status.freeBytes() / 1048576.0);
              out.count("trials", status.trials());
              out.array(
                  "assets",
                  stations -> {
                    for (WatchStatus.StationStatus station : status.stations()) {
                      stations.object(body -> station(body, station));
                    }
                  });
              out.texts("messages", status.messages());
            })
        .finish();
  }

  private static void station(JsonText json, WatchStatus.StationStatus station) {
    json.text("asset", station.name());
    json.text("phase", station.phase());
    json.text("waiting_for", station.waitingFor());
    json.count("trials", station.trials());
    json.text("last_trial", station.lastTrial().isEmpty() ? null : station.lastTrial());
    json.array(
        "devices",
        devices -> {
          for (LiveView.DeviceState device : station.devices()) {
            devices.object(
                body ->
                    body.text("device", device.name())
                        .number("hz", device.hz())
                        .number("wanted_hz", device.wantedHz())
                        .count("faults", device.faults())
                        .text("fault", device.fault().isEmpty() ? null : device.fault()));
          }
        });
  }

  private static void probe(JsonText json, Probe probe) {
    json.text("device", probe.device());
    json.text("link", probe.link());
    json.array(
        "channels",
        lines -> {
          for (Probe.Line line : probe.lines()) {
            lines.object(
                body ->
                    body.text("channel", line.channel())
                        .text("where", line.where())
                        .text("raw", line.raw())
                        .number("value", line.value())
                        .text("unit", line.unit())
                        .text("remark", line.remark()));
          }
        });
    json.texts("faults", probe.faults());
  }
}
