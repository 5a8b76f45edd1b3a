package rampwright.app.summary;

import java.io.StringWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Verdict;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;
import tech.tablesaw.api.BooleanColumn;
import tech.tablesaw.api.DoubleColumn;
import tech.tablesaw.api.IntColumn;
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;
import tech.tablesaw.columns.Column;
import tech.tablesaw.io.csv.CsvWriteOptions;

/**
 * The summary of a batch: one row for each start, one for each trial noted by hand, one for each
 * trial that could not be read. Every column has its type given; a figure that could not be had is
 * an empty cell.
 */
public final class SummaryTable {
  private final StringColumn file = StringColumn.create("file");
  private final StringColumn asset = StringColumn.create("asset");
  private final StringColumn source = StringColumn.create("source");
  private final IntColumn start = IntColumn.create("start");
  private final StringColumn outcome = StringColumn.create("outcome");
  private final StringColumn stop = StringColumn.create("stop");
  private final BooleanColumn representative = BooleanColumn.create("representative");
  private final StringColumn verdict = StringColumn.create("verdict");
  private final Map<String, DoubleColumn> figures = new LinkedHashMap<>();
  private final StringColumn findings = StringColumn.create("findings");
  private final StringColumn error = StringColumn.create("error");

  private SummaryTable() {
    for (String key : FigureKey.keys()) {
      figures.put(key, DoubleColumn.create(key));
    }
  }

  /** The summary of a batch as CSV, comma separated, decimal points, header first. */
  public static String csv(Batch batch) {
    StringWriter out = new StringWriter();
    of(batch).write().usingOptions(CsvWriteOptions.builder(out).lineEnd("\n").build());
    return out.toString();
  }

  /** The summary of a batch. */
  static Table of(Batch batch) {
    SummaryTable table = new SummaryTable();
    for (Entry entry : batch.entries()) {
      table.add(entry);
    }
    List<Column<?>> columns = new ArrayList<>();
    columns.addAll(
        List.of(
            table.file,
            table.asset,
            table.source,
            table.start,
            table.outcome,
            table.stop,
            table.representative,
            table.verdict));
    columns.addAll(table.figures.values());
    columns.add(table.findings);
    columns.add(table.error);
    return Table.create("summary", columns);
  }

  private void add(Entry entry) {
    if (entry instanceof TrialResult result) {
      List<StartRecord> starts = result.figures().starts();
      for (int i = 0; i < starts.size(); i++) {
        Verdict judged = result.verdicts().isEmpty() ? null : result.verdicts().get(i);
        addStart(result, i + 1, starts.get(i), judged);
      }
      if (starts.isEmpty()) {
        addHead(result.file(), id(result), "measured", result.trial().notes().representative());
        addRest(null, "", "", "", Map.of(), codes(result), "");
      }
    } else if (entry instanceof NotedTrial noted) {
      Map<String, Double> values = new LinkedHashMap<>();
      noted.seen().figures().forEach((key, value) -> values.put(key.key(), value));
      String id = noted.asset() == null ? "" : noted.asset().asset().id();
      addHead(noted.file(), id, "noted by hand", noted.trial().notes().representative());
      String seenOutcome = noted.seen().outcome();
      addRest(
          null,
          seenOutcome == null ? "" : seenOutcome,
          "",
          noted.verdict() == null ? "" : noted.verdict().word(),
          values,
          "",
          "");
    } else if (entry instanceof FailedTrial failed) {
      addHead(failed.file(), "", "", null);
      addRest(null, "", "", "", Map.of(), "", failed.error().replace("\n", "; "));
    }
  }

  private void addStart(
      TrialResult result, int number, StartRecord record, @Nullable Verdict judged) {
    Map<String, Double> values = new LinkedHashMap<>();
    present(record.figures(), values);
    StopRecord ending = record.stop();
    if (ending != null) {
      present(ending.figures(), values);
    }
    addHead(result.file(), id(result), "measured", result.trial().notes().representative());
    addRest(
        number,
        record.outcome().key(),
        ending == null ? "" : ending.kind().key(),
        judged == null ? "" : judged.word(),
        values,
        codes(result),
        "");
  }

  private static void present(Map<String, Measured> from, Map<String, Double> into) {
    from.forEach(
        (key, figure) -> {
          Double value = figure.value();
          if (value != null) {
            into.put(key, value);
          }
        });
  }

  private static String id(TrialResult result) {
    return result.asset() == null ? "" : result.asset().asset().id();
  }

  private static String codes(TrialResult result) {
    return result.figures().findings().stream()
        .map(Finding::code)
        .distinct()
        .collect(Collectors.joining(" "));
  }

  private void addHead(
      String fileName, String assetId, String from, @Nullable Boolean isRepresentative) {
    file.append(fileName);
    asset.append(assetId);
    source.append(from);
    if (isRepresentative == null) {
      representative.appendMissing();
    } else {
      representative.append(isRepresentative);
    }
  }

  private void addRest(
      @Nullable Integer number,
      String outcomeWord,
      String stopWord,
      String verdictWord,
      Map<String, Double> values,
      String codes,
      String errorText) {
    if (number == null) {
      start.appendMissing();
    } else {
      start.append(number.intValue());
    }
    outcome.append(outcomeWord);
    stop.append(stopWord);
    verdict.append(verdictWord);
    figures.forEach(
        (key, column) -> {
          Double value = values.get(key);
          if (value == null) {
            column.appendMissing();
          } else {
            column.append(value.doubleValue());
          }
        });
    findings.append(codes);
    error.append(errorText);
  }
}
