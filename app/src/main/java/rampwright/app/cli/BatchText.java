package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.TrialNotes;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Verdict;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;
import rampwright.app.wording.ValueText;

/** Many trials for people: a line for each start, then what could not be read. */
final class BatchText {
  private static final List<FigureKey> SHOWN =
      List.of(
          FigureKey.START_TIME,
          FigureKey.PEAK_CURRENT_RATIO,
          FigureKey.I2T_RATIO,
          FigureKey.VOLTAGE_DIP,
          FigureKey.STOP_TIME);

  private BatchText() {}

  static void print(Screen screen, Batch batch) {
    TextTable table =
        new TextTable(
            "",
            "wwrrrrrw",
            "trial",
            "outcome",
            "start s",
            "peak x In",
            "I2t s",
            "dip %",
            "stop s",
            "verdict");
    String common = common(batch.entries());
    if (!common.isEmpty()) {
      screen.line("in " + common);
    }
    for (Entry entry : batch.entries()) {
      if (entry instanceof TrialResult result) {
        add(table, result, name(result.file().substring(common.length())));
      } else if (entry instanceof NotedTrial noted) {
        String outcome = noted.seen().outcome();
        List<String> cells = new ArrayList<>();
        cells.add(name(noted.file().substring(common.length())));
        cells.add(outcome == null ? "not noted" : outcome);
        for (FigureKey key : SHOWN) {
          Double value = noted.seen().figures().get(key);
          cells.add(value == null ? "-" : ValueText.value(value, null));
        }
        cells.add(VerdictText.word(noted.verdict()));
        table.row(cells.toArray(String[]::new));
        table.under("noted by hand, not measured");
        TrialNotes notes = noted.trial().notes();
        table.under(notes.representative() ? null : "not representative: " + notes.reason());
        table.under(VerdictText.decisive(noted.verdict()));
      }
    }
    if (!table.isEmpty()) {
      screen.table(table);
    }
    for (FailedTrial failed : batch.failures()) {
      screen.line("");
      screen.line("not read: " + failed.error());
    }
    screen.line("");
    screen.line(count(batch));
  }

  /** The folder all files lie in, with its separator; empty when they share none. */
  private static String common(List<Entry> entries) {
    String common = null;
    for (Entry entry : entries) {
      if (entry instanceof FailedTrial) {
        continue;
      }
      String file = entry.file();
      int end = common == null ? file.length() : Math.min(common.length(), file.length());
      int same = 0;
      while (same < end && (common == null || common.charAt(same) == file.charAt(same))) {
        same++;
      }
      common = file.substring(0, same);
    }
    if (common == null) {
      return "";
    }
    int cut = Math.max(common.lastIndexOf('/'), common.lastIndexOf('\\'));
    return common.substring(0, cut + 1);
  }

  /** A trial by its folder: every trace is called alike, and lies under trials. */
  private static String name(String file) {
    String[] parts = file.split("[/\\\\]", -1);
    List<String> kept = new ArrayList<>();
    for (int i = 0; i < parts.length; i++) {
      boolean last = i == parts.length - 1;
      boolean alike = parts[i].startsWith("trace.") || parts[i].equals(AssetFolders.SETTINGS);
      if (!(last && i > 0 && alike) && !(parts[i].equals(AssetFolders.TRIALS) && !last)) {
        kept.add(parts[i]);
      }
    }
    return String.join("/", kept);
  }

  private static void add(TextTable table, TrialResult result, String name) {
    String findings =
        String.join(
            ", ", result.figures().findings().stream().map(Finding::code).distinct().toList());
    TrialNotes notes = result.trial().notes();
    String mark = notes.representative() ? null : "not representative: " + notes.reason();
    List<StartRecord> starts = result.figures().starts();
    if (starts.isEmpty()) {
      table.row(name, "no start", "-", "-", "-", "-", "-", "-");
      table.under(mark);
      table.under(findings.isEmpty() ? null : "found: " + findings);
    }
    for (int i = 0; i < starts.size(); i++) {
      StartRecord start = starts.get(i);
      List<String> cells = new ArrayList<>();
      cells.add(starts.size() == 1 ? name : name + " #" + (i + 1));
      cells.add(start.outcome().key());
      for (FigureKey key : SHOWN) {
        cells.add(cell(start, key));
      }
      Verdict verdict = result.verdicts().isEmpty() ? null : result.verdicts().get(i);
      cells.add(VerdictText.word(verdict));
      table.row(cells.toArray(String[]::new));
      table.under(mark);
      table.under(VerdictText.decisive(verdict));
      table.under(findings.isEmpty() ? null : "found: " + findings);
    }
  }

  private static String cell(StartRecord start, FigureKey key) {
    Map<String, Measured> figures =
        key.part() == FigureKey.Part.START
            ? start.figures()
            : start.stop() == null ? Map.of() : start.stop().figures();
    @Nullable Measured figure = figures.get(key.key());
    Double value = figure == null ? null : figure.value();
    return value == null || figure == null ? "-" : ValueText.value(value, figure.uncertainty());
  }

  private static String count(Batch batch) {
    List<Verdict> verdicts =
        batch.results().stream().flatMap(result -> result.verdicts().stream()).toList();
    StringBuilder text = new StringBuilder();
    text.append(batch.results().size()).append(" analysed");
    long noted = batch.entries().stream().filter(NotedTrial.class::isInstance).count();
    if (noted > 0) {
      text.append(", ").append(noted).append(" noted by hand");
    }
    if (!batch.failures().isEmpty()) {
      text.append(", ").append(batch.failures().size()).append(" not read");
    }
    if (!verdicts.isEmpty()) {
      text.append("; envelope met ")
          .append(verdicts.stream().filter(Verdict.Met.class::isInstance).count())
          .append(", missed ")
          .append(verdicts.stream().filter(Verdict.Missed.class::isInstance).count())
          .append(", not assessable ")
          .append(verdicts.stream().filter(Verdict.NotAssessable.class::isInstance).count());
    }
    return text.toString();
  }
}
