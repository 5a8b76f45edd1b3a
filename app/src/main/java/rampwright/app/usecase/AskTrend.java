package rampwright.app.usecase;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.FigureKey;
import rampwright.app.logbook.AssetLimit;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.LogEvent;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.trend.AssetFacts;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.Leads;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.Trends;

/** What the figures of an asset, or of all, do over the months. */
public final class AskTrend {
  private static final String VOLTAGE = FigureKey.VOLTAGE_BEFORE.key();

  private final LogbookUse logbooks;

  public AskTrend(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /**
   * What is asked.
   *
   * @param assets by id; none for all
   * @param figures by key; none for all an asset has
   * @param limits that hold instead of the noted ones
   * @param zone in which times are shown instead of the assets' own; null for those
   */
  public record Question(
      List<String> assets,
      List<String> figures,
      Map<String, Double> limits,
      @Nullable ZoneId zone) {
    /** With the assets' own zones. */
    public Question(List<String> assets, List<String> figures, Map<String, Double> limits) {
      this(assets, figures, limits, null);
    }

    public Question {
      assets = List.copyOf(assets);
      figures = List.copyOf(figures);
      limits = Map.copyOf(limits);
    }
  }

  /**
   * The trends asked for, in alphabetical order of assets.
   *
   * @throws UsageProblem where an asset or a figure is not known
   */
  public List<AssetTrend> run(Question question, @Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    for (String figure : question.figures()) {
      if (FigureKey.ofKey(figure).isEmpty()) {
        throw new UsageProblem(figure + ": is no figure; rampwright schema lists them");
      }
    }
    return logbooks.run(
        logbook,
        book -> {
          List<String> known = book.assets();
          for (String asset : question.assets()) {
            if (!known.contains(asset)) {
              throw new UsageProblem(
                  asset
                      + ": has no starts in this logbook; it holds "
                      + (known.isEmpty() ? "none" : String.join(", ", known)));
            }
          }
          List<AssetTrend> answers = new ArrayList<>();
          for (String asset : question.assets().isEmpty() ? known : question.assets()) {
            answers.add(asset(book, asset, question));
          }
          return answers;
        });
  }

  private static AssetTrend asset(Logbook book, String asset, Question question)
      throws LogbookException {
    List<LogEntry> entries = book.starts(asset);
    List<LogEvent> events = book.events(asset);
    AssetFacts noted = NotedFacts.of(events);
    ZoneId asked = question.zone();
    AssetFacts facts = asked == null ? noted : new AssetFacts(noted.name(), noted.group(), asked);
    List<Instant> work =
        events.stream()
            .filter(event -> event.kind() == LogEvent.Kind.WORK)
            .map(LogEvent::at)
            .toList();
    Map<String, AssetLimit> limits = book.limits(asset);
    List<TrendQuestion> questions = new ArrayList<>();
    List<FigureTrend> trends = new ArrayList<>();
    for (String figure : figures(entries)) {
      TrendQuestion about =
          new TrendQuestion(
              figure,
              starts(entries, figure),
              work,
              upper(figure, limits, question),
              lower(figure, limits),
              facts.zone());
      questions.add(about);
      trends.add(Trends.of(about));
    }
    List<FigureTrend> shown =
        trends.stream()
            .filter(
                trend ->
                    question.figures().isEmpty() || question.figures().contains(trend.figure()))
            .toList();
    return new AssetTrend(
        asset,
        facts,
        entries.size(),
        shown,
        NotedFacts.marks(entries, events),
        Leads.of(questions, trends));
  }

  /** Figures that any start carries, in the order of the definitions. */
  private static Set<String> figures(List<LogEntry> entries) {
    Set<String> present = new TreeSet<>(Comparator.comparingInt(FigureKey.keys()::indexOf));
    for (LogEntry entry : entries) {
      entry
          .figures()
          .forEach(
              (key, value) -> {
                if (Double.isFinite(value.value()) && FigureKey.ofKey(key).isPresent()) {
                  present.add(key);
                }
              });
    }
    return present;
  }

  private static OptionalDouble upper(
      String figure, Map<String, AssetLimit> limits, Question question) {
    Double asked = question.limits().get(figure);
    if (asked != null) {
      return OptionalDouble.of(asked);
    }
    AssetLimit noted = limits.get(figure);
    return noted == null ? OptionalDouble.empty() : noted.max();
  }

  private static OptionalDouble lower(String figure, Map<String, AssetLimit> limits) {
    AssetLimit noted = limits.get(figure);
    return noted == null ? OptionalDouble.empty() : noted.min();
  }

  private static List<LoggedStart> starts(List<LogEntry> entries, String figure) {
    List<LoggedStart> starts = new ArrayList<>();
    for (LogEntry entry : entries) {
      boolean whole = entry.outcome().isEmpty() || "completed".equals(entry.outcome());
      starts.add(
          new LoggedStart(
              entry.at(),
              entry.settings(),
              entry.value(figure),
              VOLTAGE.equals(figure) ? Double.NaN : entry.value(VOLTAGE),
              entry.counts() && whole));
    }
    return starts;
  }
}
