package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnTable.Content;
import rampwright.acquisition.file.ColumnUnits.Conversion;
import rampwright.acquisition.file.HeaderMeaning.Word;
import rampwright.acquisition.file.UnitTable.Unit;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.trace.ChannelName;

/**
 * Decides which column is which channel: a person's rules first, then what headers say. What can be
 * read in two ways is an error that names the candidates.
 */
final class ColumnPlanner {
  /** The decision. */
  record Decision(
      CsvPlan plan,
      ColumnTime.Choice time,
      List<ChannelName> channels,
      List<ColumnReading> readings,
      List<String> notUsed,
      List<String> warnings) {}

  private final String file;
  private final ColumnTable table;
  private final ColumnMapping mapping;
  private final ReadContext context;
  private final ColumnRules rules;
  private final List<String> warnings = new ArrayList<>();
  private final Set<Integer> claimed = new HashSet<>();
  private final Map<Integer, String> leftOut = new TreeMap<>();
  private final Map<ChannelName, ColumnReading> readings = new EnumMap<>(ChannelName.class);

  ColumnPlanner(String file, CsvLayout layout, ColumnMapping mapping, ReadContext context) {
    this.file = file;
    this.table = new ColumnTable(layout);
    this.mapping = mapping;
    this.context = context;
    this.rules = new ColumnRules(file, table, context);
  }

  Decision decide() throws TraceFileException {
    for (Map.Entry<String, ColumnRule> rule : new TreeMap<>(mapping.rules()).entrySet()) {
      if (!rule.getKey().equals(ColumnMapping.TIME)) {
        ColumnReading reading = rules.reading(rule.getKey(), rule.getValue());
        claimed.add(reading.column() - 1);
        readings.put(rules.channel(rule.getKey()), reading);
      }
    }
    if (!table.hasHeader() && readings.isEmpty()) {
      throw new TraceFileException(file, headless());
    }
    ColumnTime.Choice time = time();
    claimed.addAll(time.claimed());
    guess();
    if (readings.isEmpty()) {
      throw new TraceFileException(file, table.layout().headerLine(), 0, noChannel(), null);
    }
    if (table.commasMayPartThousands()) {
      warnings.add(
          "every comma in the first rows has three digits behind it; read as decimal comma, not as"
              + " thousands separator");
    }
    if (readings.keySet().stream().noneMatch(ChannelName.CURRENTS::contains)) {
      warnings.add("no column is a phase current; figures that need one cannot be had");
    }
    return decision(time);
  }

  private Decision decision(ColumnTime.Choice time) {
    List<CsvPlan.Slot> slots = new ArrayList<>();
    if (time.slot() != null) {
      slots.add(time.slot());
    }
    List<ColumnReading> all = new ArrayList<>(List.of(time.reading()));
    List<ChannelName> channels = new ArrayList<>();
    readings.forEach(
        (channel, reading) -> {
          boolean run = channel == ChannelName.RUN;
          slots.add(
              new CsvPlan.Slot(
                  reading.column() - 1,
                  run ? CsvPlan.Kind.RUN : CsvPlan.Kind.NUMBER,
                  reading.factor(),
                  reading.offset(),
                  false));
          channels.add(channel);
          all.add(reading);
        });
    List<String> notUsed = new ArrayList<>();
    for (Column column : table.columns()) {
      boolean named = !column.head().text().isBlank() || column.content() != Content.NOTHING;
      if (!claimed.contains(column.index()) && named) {
        String reason = leftOut.get(column.index());
        notUsed.add("column " + column.shown() + (reason == null ? "" : " (" + reason + ")"));
      }
    }
    CsvLayout layout = table.layout();
    CsvPlan plan =
        new CsvPlan(
            layout.dialect(),
            layout.minCells(),
            layout.maxCells(),
            slots,
            time.dateColumn(),
            time.fractionColumn(),
            time.fractionUnitS(),
            time.base(),
            layout.header(),
            units());
    return new Decision(plan, time, channels, all, notUsed, warnings);
  }

  private Map<Integer, Unit> units() {
    Map<Integer, Unit> units = new TreeMap<>();
    for (Column column : table.columns()) {
      Unit unit = column.head().unit();
      if (unit != null) {
        units.put(column.index(), unit);
      }
    }
    return units;
  }

  private ColumnTime.Choice time() throws TraceFileException {
    Double rateHz = mapping.rateHz();
    if (rateHz != null) {
      return ColumnTime.counted(1 / rateHz, "rate given, no column of time");
    }
    ColumnTime finder = new ColumnTime(file, table, context, warnings);
    ColumnRule rule = mapping.rules().get(ColumnMapping.TIME);
    return rule == null
        ? finder.guessed()
        : finder.ruled(rules.column(ColumnMapping.TIME, rule), rule);
  }

  private void guess() throws TraceFileException {
    Map<ChannelName, List<Column>> candidates = new EnumMap<>(ChannelName.class);
    List<Column> unlabelled = new ArrayList<>();
    Map<Integer, String> remarks = new TreeMap<>();
    for (Column column : table.columns()) {
      if (!claimed.contains(column.index())) {
        ColumnGuess guess = ColumnGuess.of(column);
        remarks.put(column.index(), guess.remark());
        if (!guess.reason().isEmpty()) {
          leaveOut(column, guess.reason());
        } else if (guess.unlabelled() && usable(column, ChannelName.I1)) {
          unlabelled.add(column);
        } else if (guess.channel() != null && usable(column, guess.channel())) {
          candidates.computeIfAbsent(guess.channel(), key -> new ArrayList<>()).add(column);
        }
      }
    }
    for (Map.Entry<ChannelName, List<Column>> entry : candidates.entrySet()) {
      ChannelName channel = entry.getKey();
      if (!readings.containsKey(channel)) {
        take(channel, onlyOne(channel, entry.getValue()), remarks);
      }
    }
    unlabelledCurrents(unlabelled, remarks);
  }

  private void unlabelledCurrents(List<Column> unlabelled, Map<Integer, String> remarks)
      throws TraceFileException {
    boolean have = readings.keySet().stream().anyMatch(ChannelName.CURRENTS::contains);
    if (have || unlabelled.isEmpty()) {
      unlabelled.forEach(column -> leaveOut(column, "is a current that names no phase"));
      return;
    }
    if (unlabelled.size() > 1) {
      throw new TraceFileException(
          file, table.layout().headerLine(), 0, ColumnHelp.several("i1", unlabelled, ""), null);
    }
    Column column = unlabelled.get(0);
    remarks.put(column.index(), "the only current; taken as phase 1");
    take(ChannelName.I1, column, remarks);
  }

  private Column onlyOne(ChannelName channel, List<Column> candidates) throws TraceFileException {
    List<Column> exact =
        candidates.stream()
            .filter(
                c ->
                    c.head().text().strip().equals(channel.column())
                        || c.head().text().strip().equals(channel.key()))
            .toList();
    if (exact.size() == 1) {
      candidates.stream()
          .filter(c -> c.index() != exact.get(0).index())
          .forEach(c -> leaveOut(c, exact.get(0).shown() + " is " + channel.key()));
      return exact.get(0);
    }
    if (candidates.size() > 1) {
      throw new TraceFileException(
          file,
          table.layout().headerLine(),
          0,
          ColumnHelp.several(channel.key(), candidates, channel.quantity().unit()),
          null);
    }
    return candidates.get(0);
  }

  /** Whether the column's unit can be turned into the channel's; says why where it cannot. */
  private boolean usable(Column column, ChannelName channel) {
    if (column.content() == Content.TEXT && channel != ChannelName.RUN) {
      leaveOut(column, "holds no numbers");
      return false;
    }
    Unit unit = column.head().unit();
    if (unit == null) {
      if (!column.head().unitText().isEmpty() && channel != ChannelName.RUN) {
        leaveOut(column, "has the unit \"" + column.head().unitText() + "\", which is not known");
        return false;
      }
      return true;
    }
    Conversion conversion =
        ColumnUnits.convert(channel, unit, context, column.meaning().has(Word.ROTATION));
    if (!conversion.isKnown()) {
      leaveOut(column, conversion.remark());
    }
    return conversion.isKnown();
  }

  private void leaveOut(Column column, String reason) {
    leftOut.put(column.index(), reason);
    warnings.add("column " + column.shown() + " is left out: it " + reason);
  }

  private void take(ChannelName channel, Column column, Map<Integer, String> remarks) {
    Unit unit = column.head().unit();
    String remark = remarks.getOrDefault(column.index(), "");
    double factor = 1;
    String unitText = column.head().unitText();
    if (unit != null) {
      Conversion conversion =
          ColumnUnits.convert(channel, unit, context, column.meaning().has(Word.ROTATION));
      factor = conversion.factor();
      remark = remark.isEmpty() ? conversion.remark() : remark;
    } else if (channel.quantity() != Quantity.RUN) {
      unitText = channel.quantity().unit();
      if (column.head().name().toLowerCase(java.util.Locale.ROOT).matches("omega|\u03c9")) {
        unitText = "rad/s";
        factor = 60 / (2 * Math.PI);
      }
      warnings.add("column " + column.shown() + " has no unit; read as " + unitText);
    }
    if (table.hasUnitInCells(column.index())) {
      remark = (remark.isEmpty() ? "" : remark + "; ") + "the unit stands in its cells";
    }
    if (!remark.isEmpty() && channel.quantity() == Quantity.LINE_VOLTAGE) {
      warnings.add("column " + column.shown() + " is taken as " + channel.key() + ": " + remark);
    }
    claimed.add(column.index());
    readings.put(channel, ColumnRules.reading(channel, column, unitText, factor, 0, remark));
  }

  private String headless() {
    int columns = table.columns().size();
    int time = -1;
    int other = -1;
    for (Column column : table.columns()) {
      if (column.content() == Content.NUMBERS) {
        if (time < 0 && table.rises(column.index())) {
          time = column.index();
        } else if (other < 0) {
          other = column.index();
        }
      }
    }
    return ColumnHelp.withExample(
        columns == 1
            ? "has no header line, so that its one column cannot be told"
            : "has no header line, so that its " + columns + " columns cannot be told apart",
        time < 0
            ? "time = { rate_Hz = 1000 }   # no column rises like a time; rows per second"
            : "time = { index = " + (time + 1) + ", unit = \"s\" }",
        "i1 = { index = " + (Math.max(other, 0) + 1) + ", unit = \"A\" }");
  }

  private String noChannel() {
    StringBuilder why = new StringBuilder();
    leftOut.forEach(
        (index, reason) ->
            why.append("; column ")
                .append(table.columns().get(index).shown())
                .append(" ")
                .append(reason));
    Column last = table.columns().get(table.columns().size() - 1);
    for (int i = table.columns().size() - 1; i >= 0; i--) {
      Column column = table.columns().get(i);
      boolean free = !claimed.contains(i) && !ColumnTime.isCounter(column);
      last = free && column.content() == Content.NUMBERS ? column : last;
    }
    Unit unit = last.head().unit();
    String remedy =
        unit == null || unit.dimension() == UnitTable.Dimension.CURRENT
            ? "i1 = { " + last.rule() + ", unit = \"A\" }"
            : "i1 = { " + last.rule() + ", scale = 100.0 }   # amperes per " + unit.symbol();
    return ColumnHelp.withExample(
        "no column could be told to be a current, voltage or speed; columns are "
            + table.names()
            + why,
        remedy);
  }
}
