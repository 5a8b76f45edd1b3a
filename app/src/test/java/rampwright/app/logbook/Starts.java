package rampwright.app.logbook;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/** Starts made up for tests of the store. */
final class Starts {
  static final Instant NOON = Instant.parse("2024-05-06T12:00:00Z");
  static final LogFile TRACE =
      new LogFile("trace.csv", "time_s,i1_A\n0,1\n".getBytes(StandardCharsets.UTF_8));

  private Starts() {}

  static LogEntry entry(Instant at, double startTimeS) {
    return entry("P-1", at, startTimeS, "20240506T" + at.getEpochSecond() + "Z#1");
  }

  static LogEntry entry(String asset, Instant at, double startTimeS, String trial) {
    return new LogEntry(
        asset,
        at,
        "ramp 8 s",
        "completed",
        true,
        "",
        "",
        "",
        new Origin("made up", trial, "test", "1", TRACE.sha256(), List.of(TRACE)),
        Map.of(
            "start_time_s", new LoggedFigure(startTimeS, "s", 0.02, "speed"),
            "not_a_column", new LoggedFigure(3.25, "m\\s", 0.5, "a\ttab,\na line, a \\"),
            "voltage_dip_pct", new LoggedFigure(Double.NaN, "%", Double.NaN, "no voltage")));
  }

  /** A row of a table: no trace, figures alone. */
  static LogEntry row(Instant at, double startTimeS) {
    return new LogEntry(
        "P-1",
        at,
        "ramp 8 s",
        "completed",
        true,
        "",
        "",
        "",
        Origin.withoutTrace("table"),
        Map.of("start_time_s", new LoggedFigure(startTimeS, "s", Double.NaN, "")));
  }
}
