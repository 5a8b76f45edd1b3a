package rampwright.app.json;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.app.alert.StandingAlert;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.Lead;
import rampwright.app.trend.Mark;

/** Trends as JSON. */
public final class TrendJson {
  private TrendJson() {}

  /** Trends of assets. */
  public static String trends(List<AssetTrend> assets) {
    return trends(assets, null);
  }

  /** Trends of assets, and the alerts that stand where those were asked for. */
  public static String trends(List<AssetTrend> assets, @Nullable List<StandingAlert> alerts) {
    return new JsonText()
        .object(
            out -> {
              out.array(
                  "assets",
                  list -> {
                    for (AssetTrend asset : assets) {
                      list.object(body -> asset(body, asset));
                    }
                  });
              if (alerts != null) {
                AlertJson.standing(out, alerts);
              }
            })
        .finish();
  }

  private static void asset(JsonText json, AssetTrend asset) {
    json.text("asset", asset.asset());
    json.text("name", asset.facts().name());
    json.text("group", asset.facts().group());
    json.text("zone", asset.facts().zone().getId());
    json.count("starts", asset.starts());
    json.array(
        "figures",
        list -> {
          for (FigureTrend figure : asset.figures()) {
            list.object(body -> figure(body, figure));
          }
        });
    json.array(
        "look_first",
        list -> {
          for (Lead lead : asset.leads()) {
            list.object(body -> lead(body, lead));
          }
        });
    json.array(
        "marks",
        list -> {
          for (Mark mark : asset.marks()) {
            list.object(
                body -> {
                  body.text("at", time(mark.at()));
                  body.text("kind", mark.kind().word());
                  body.text("text", mark.text());
                  body.text("author", mark.author());
                });
          }
        });
  }

  private static void lead(JsonText json, Lead lead) {
    json.text("pattern", lead.key());
    json.text("look", lead.look());
    json.text("since", time(lead.since()));
    json.texts("evidence", lead.evidence());
    json.texts("against", lead.against());
    json.texts("missing", lead.missing());
  }

  private static void figure(JsonText json, FigureTrend trend) {
    json.text("figure", trend.figure());
    json.count("n", trend.n());
    json.text("state", trend.state().word());
    json.text("why", trend.why());
    baseline(json, trend.baseline());
    step(json, trend.step());
    drift(json, trend.drift());
    limit(json, trend.limit());
    json.text("since", trend.since().map(TrendJson::time).orElse(null));
    json.texts("corrected_for", trend.conditions());
  }

  private static void baseline(JsonText json, Optional<FigureTrend.Baseline> baseline) {
    if (baseline.isEmpty()) {
      json.nothing("baseline");
      return;
    }
    FigureTrend.Baseline b = baseline.get();
    json.object(
        "baseline",
        out -> {
          out.number("median", b.median());
          out.number("mad", b.mad());
          out.count("n", b.n());
          out.text("from", time(b.from()));
          out.text("to", time(b.to()));
        });
  }

  private static void step(JsonText json, Optional<FigureTrend.Step> step) {
    if (step.isEmpty()) {
      json.nothing("step");
      return;
    }
    FigureTrend.Step s = step.get();
    json.object(
        "step",
        out -> {
          out.text("at", time(s.at()));
          out.number("size_pct", s.sizePct());
          out.number("chance", s.chance());
          out.text("low", time(s.low()));
          out.text("high", time(s.high()));
          out.number("pettitt_p", s.pettittP());
        });
  }

  private static void drift(JsonText json, Optional<FigureTrend.Drift> drift) {
    if (drift.isEmpty()) {
      json.nothing("drift");
      return;
    }
    FigureTrend.Drift d = drift.get();
    json.object(
        "drift",
        out -> {
          out.number("pct_per_year", d.pctPerYear());
          out.number("low", d.low());
          out.number("high", d.high());
          out.text("begin", time(d.begin()));
          out.number("chance", d.chance());
          out.number("sen_pct_per_year", d.senPctPerYear());
          out.number("mann_kendall_p", d.mannKendallP());
        });
  }

  private static void limit(JsonText json, Optional<FigureTrend.LimitWatch> limit) {
    if (limit.isEmpty()) {
      json.nothing("limit");
      return;
    }
    FigureTrend.LimitWatch watch = limit.get();
    json.object(
        "limit",
        out -> {
          out.number("value", watch.value());
          out.text("side", watch.upper() ? "max" : "min");
          out.number("now", watch.now());
          out.flag("beyond", watch.beyondSince().isPresent());
          out.text("beyond_since", watch.beyondSince().map(TrendJson::time).orElse(null));
          out.count("lately_beyond", watch.lately());
          out.count("lately", watch.latest());
          if (watch.reached().isEmpty()) {
            out.nothing("reached");
            return;
          }
          FigureTrend.Reached reached = watch.reached().get();
          out.object(
              "reached",
              body -> {
                body.text("date", time(reached.date()));
                body.text("low", time(reached.low()));
                body.text("high", reached.high().map(TrendJson::time).orElse(null));
              });
        });
  }

  private static String time(Instant at) {
    return at.truncatedTo(ChronoUnit.SECONDS).toString();
  }
}
