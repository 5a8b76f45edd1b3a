package rampwright.app.cli;

import java.util.Locale;
import rampwright.app.asset.SiteTime;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.ready.ReadyLine;

/** Readiness, and the list before energising, for people. */
final class ReadyText {
  private static final int WIDTH = 96;

  private ReadyText() {}

  static void print(Screen screen, Readiness readiness, EnergisingList list, boolean sources) {
    screen.line(
        readiness.asset().asset().name()
            + ": "
            + (readiness.isHeld() ? "HOLD" : "no check holds it back")
            + String.format(
                Locale.ROOT,
                " (%d ok, %d to look at, %d hold)",
                readiness.count(ReadyLine.State.OK),
                readiness.count(ReadyLine.State.LOOK),
                readiness.count(ReadyLine.State.HOLD)));
    screen.line(
        "  rests on "
            + readiness.basis()
            + (readiness.settingsFrom().isEmpty()
                ? ""
                : "; settings of " + readiness.settingsFrom()));
    ReadyLine.Part part = null;
    for (ReadyLine line : readiness.lines()) {
      if (line.part() != part) {
        part = line.part();
        screen.line("");
        screen.line(part.title());
      }
      screen.line(word(line.state()) + "  " + line.check());
      wrapped(screen, line.text(), "      ");
      if (sources) {
        wrapped(screen, "rule: " + line.source(), "      ");
      }
    }
    screen.line("");
    Double perHour = readiness.startsPerHour();
    Double restS = readiness.restS();
    if (perHour != null && restS != null && perHour > 0) {
      screen.line(
          String.format(
              Locale.ROOT,
              "Starts: at most %.3g an hour, %s of rest between.",
              perHour,
              HeatText.duration(restS)));
    }
    screen.line(
        "Before energising: "
            + (list.items().size() - list.open())
            + " of "
            + list.items().size()
            + " checks ticked (--list shows them).");
    screen.prose(
        "",
        "Reckoned from "
            + readiness.basis()
            + "; no check of the plant itself. The makers' data, local codes and"
            + " licensed practice come first.");
  }

  private static String word(ReadyLine.State state) {
    return switch (state) {
      case OK -> "ok  ";
      case LOOK -> "LOOK";
      case HOLD -> "HOLD";
    };
  }

  static void list(Screen screen, String asset, SiteTime site, EnergisingList list) {
    screen.line(asset + ": before energising");
    for (String caution : EnergisingList.CAUTIONS) {
      screen.prose("", "! " + caution);
    }
    screen.line("");
    for (EnergisingList.Item item : list.items()) {
      EnergisingList.Tick last = list.last(item.number());
      boolean ticked = last != null && !last.taken();
      screen.line(
          String.format(
              Locale.ROOT, "%2d [%s] %s", item.number(), ticked ? "x" : " ", item.about()));
      wrapped(screen, item.text(), "       ");
      if (last != null) {
        String note = last.note();
        wrapped(
            screen,
            (ticked ? "ticked by " : "TICK TAKEN BACK by ")
                + last.by()
                + ", "
                + site.text(last.at())
                + (note == null ? "" : ": " + note)
                + (last.text().equals(item.text()) ? "" : " (the words were others then)"),
            "       ");
      }
    }
    screen.line("");
    screen.line(
        list.open() == 0
            ? "All checks are ticked."
            : list.open() + " open. Tick with --tick N --by NAME.");
  }

  /** A text in lines of a width. */
  private static void wrapped(Screen screen, String text, String indent) {
    StringBuilder line = new StringBuilder(indent);
    // A file that was written by hand may hold line breaks; none of them begins a line here.
    for (String word : SafeText.of(text.replace('\n', ' ')).split(" ", -1)) {
      if (line.length() > indent.length() && line.length() + 1 + word.length() > WIDTH) {
        screen.line(line.toString());
        line = new StringBuilder(indent);
      }
      line.append(line.length() > indent.length() ? " " : "").append(word);
    }
    screen.line(line.toString());
  }
}
