package rampwright.app.usecase;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.FigureKey;
import rampwright.app.logbook.AssetLimit;
import rampwright.app.logbook.LogEvent;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.logbook.StartColumns;
import rampwright.app.page.FleetPage;
import rampwright.app.trend.AssetFacts;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.Fleet;
import rampwright.app.trend.Leads;
import rampwright.app.trend.StartSeries;
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
    if (!question.assets().isEmpty() && question.assets().size() <= FleetPage.ALL_SHOWN) {
      return logbooks.run(logbook, book -> few(book, question));
    }
    List<String> known = logbooks.run(logbook, Logbook::assets);
    for (String asset : question.assets()) {
      LogbookUse.demandKnown(asset, known);
    }
    List<String> asked = question.assets().isEmpty() ? known : question.assets();
    boolean large = asked.size() > FleetPage.ALL_SHOWN;
    return logbooks.forEach(
        logbook,
        asked,
        (book, asset) ->
            large ? brief(asset(book, asset, question)) : asset(book, asset, question));
  }

  /** Of a few, with one connection, and without asking for all there are. */
  private static List<AssetTrend> few(Logbook book, Question question)
      throws LogbookException, UsageProblem {
    List<AssetTrend> trends = new ArrayList<>();
    for (String asset : question.assets()) {
      if (!book.holds(asset)) {
        LogbookUse.demandKnown(asset, book.assets());
      }
      trends.add(asset(book, asset, question));
    }
    return trends;
  }

  /** Without the starts nobody will be shown: those of a large fleet would fill the memory. */
  private static AssetTrend brief(AssetTrend asset) {
    List<FigureTrend> figures = new ArrayList<>();
    for (FigureTrend figure : asset.figures()) {
      // the first one's course stands for the asset
      boolean shown = figures.isEmpty() || Fleet.wantsLook(figure);
      figures.add(shown ? figure : figure.brief());
    }
    return new AssetTrend(
        asset.asset(), asset.facts(), asset.starts(), figures, asset.marks(), asset.leads());
  }

  private static AssetTrend asset(Logbook book, String asset, Question question)
      throws LogbookException {
    StartColumns columns = book.columns(asset);
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
    double[] nowhere = new double[columns.size()];
    Arrays.fill(nowhere, Double.NaN);
    StartSeries starts = starts(columns, columns.figures().getOrDefault(VOLTAGE, nowhere));
    StartSeries withoutVoltage = starts(columns, nowhere);
    List<TrendQuestion> questions = new ArrayList<>();
    for (String figure : FigureKey.keys()) {
      if (columns.figures().containsKey(figure)) {
        questions.add(
            new TrendQuestion(
                figure,
                (VOLTAGE.equals(figure) ? withoutVoltage : starts)
                    .with(columns.figures().getOrDefault(figure, nowhere)),
                work,
                upper(figure, limits, question),
                lower(figure, limits),
                facts.zone()));
      }
    }
    List<FigureTrend> trends = Trends.of(questions);
    List<FigureTrend> shown =
        trends.stream()
            .filter(
                trend ->
                    question.figures().isEmpty() || question.figures().contains(trend.figure()))
            .toList();
    return new AssetTrend(
        asset,
        facts,
        columns.size(),
        shown,
        NotedFacts.marks(columns, events),
        Leads.of(questions, trends));
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

  private static StartSeries starts(StartColumns columns, double[] voltageBeforeV) {
    return StartSeries.of(columns.at(), columns.settings(), columns.counts(), voltageBeforeV);
  }
}
