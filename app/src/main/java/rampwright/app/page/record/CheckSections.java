package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.ready.ReadyLine;
import rampwright.app.report.Report;

/** What was checked before energising, and what readiness says. */
final class CheckSections {
  private CheckSections() {}

  static RecordModel.Checks list(Report report) {
    EnergisingList list = report.list().value();
    if (list == null) {
      return new RecordModel.Checks(report.list().reason(), "", EnergisingList.CAUTIONS, List.of());
    }
    List<RecordModel.Check> checks = new ArrayList<>();
    for (EnergisingList.Item item : list.items()) {
      EnergisingList.Tick last = list.last(item.number());
      checks.add(
          new RecordModel.Check(
              String.valueOf(item.number()),
              item.about(),
              item.text(),
              list.tick(item.number()) != null,
              last == null ? "OPEN" : ticked(report, item, last)));
    }
    return new RecordModel.Checks(
        "",
        list.items().size()
            - list.open()
            + " of "
            + list.items().size()
            + " checks ticked, "
            + (list.open() == 0 ? "none open." : list.open() + " OPEN."),
        EnergisingList.CAUTIONS,
        checks);
  }

  private static String ticked(Report report, EnergisingList.Item item, EnergisingList.Tick tick) {
    String note = tick.note();
    return (tick.taken() ? "OPEN: tick taken back by " : "")
        + tick.by()
        + ", "
        + report.site().text(tick.at())
        + (note == null ? "" : ": " + note)
        + (tick.text().equals(item.text()) ? "" : " (the words were others then)");
  }

  static RecordModel.Ready ready(Report report) {
    Readiness readiness = report.readiness().value();
    if (readiness == null) {
      return new RecordModel.Ready(report.readiness().reason(), "", List.of());
    }
    return new RecordModel.Ready(
        "",
        String.format(
            Locale.ROOT,
            "%s (%d ok, %d to look at, %d hold). Reckoned from %s%s; no check of the plant itself.",
            readiness.isHeld() ? "HOLD" : "No check holds it back",
            readiness.count(ReadyLine.State.OK),
            readiness.count(ReadyLine.State.LOOK),
            readiness.count(ReadyLine.State.HOLD),
            readiness.basis(),
            readiness.settingsFrom().isEmpty()
                ? ""
                : " and the settings of " + settingsFrom(readiness.settingsFrom())),
        readiness.lines().stream()
            .map(
                line ->
                    new RecordModel.Looked(
                        switch (line.state()) {
                          case OK -> "accepted";
                          case LOOK -> "open";
                          case HOLD -> "refused";
                        },
                        line.state() == ReadyLine.State.OK
                            ? "ok"
                            : line.state().key().toUpperCase(Locale.ROOT),
                        line.check(),
                        line.text(),
                        line.source()))
            .toList());
  }

  /** The file's name without where it lay on the computer the record was made on. */
  private static String settingsFrom(String from) {
    int end = Math.max(from.lastIndexOf('/'), from.lastIndexOf('\\'));
    return from.substring(end + 1);
  }
}
