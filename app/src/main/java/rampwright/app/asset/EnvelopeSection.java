package rampwright.app.asset;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlSection;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.Envelope;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;
import rampwright.app.envelope.Polyline;

/** The {@code [envelope]} section. */
final class EnvelopeSection {
  private static final double LARGEST = 1e12;
  private static final double LONGEST_S = 1e5;

  private EnvelopeSection() {}

  static Envelope read(TomlSection in) {
    List<Limit> limits = new ArrayList<>();
    for (String key : in.keys()) {
      FigureKey figure = FigureKey.ofKey(key).orElse(null);
      if (figure != null) {
        Limit limit = limit(in, figure);
        if (limit != null) {
          limits.add(limit);
        }
      }
    }
    List<Corridor> corridors = new ArrayList<>();
    for (TomlSection section : in.sections("corridor")) {
      Corridor corridor = corridor(section);
      if (corridor != null) {
        corridors.add(corridor);
      }
    }
    List<String> allowed = new ArrayList<>(FigureKey.keys());
    allowed.add("corridor");
    in.finish(allowed);
    return new Envelope(limits, corridors);
  }

  private static @Nullable Limit limit(TomlSection in, FigureKey figure) {
    TomlSection limit = in.section(figure.key());
    if (limit == null) {
      return null;
    }
    Double min = limit.number(bound("min", "the smallest value allowed", figure));
    Double max = limit.number(bound("max", "the largest value allowed", figure));
    limit.finish();
    if (min == null && max == null) {
      in.problem(figure.key(), figure.key() + " has neither min nor max; write { max = ... }");
      return null;
    }
    if (min != null && max != null && min > max) {
      in.problem(figure.key(), figure.key() + ": min is above max; swap them");
      return null;
    }
    return new Limit(figure, min, max);
  }

  private static NumberKey bound(String name, String meaning, FigureKey figure) {
    double least = figure == FigureKey.PRESSURE_MIN ? -1000 : 0;
    double most =
        switch (figure) {
          case POWER_FACTOR -> 1;
          case PEAK_CURRENT_RATIO, RMS_CURRENT_RATIO, STOP_PEAK_CURRENT -> 30;
          case VOLTAGE_DIP, START_DROP, CURRENT_UNBALANCE, NEGATIVE_SEQUENCE -> 100;
          default -> LARGEST;
        };
    return new NumberKey(
        name,
        figure.unit(),
        least,
        most,
        meaning + " of " + figure.label(),
        figure.unit().isEmpty() ? "it is a ratio, neither amperes nor percent" : "");
  }

  private static @Nullable Corridor corridor(TomlSection in) {
    Corridor.Channel channel =
        in.word("channel", Words.of(Corridor.Channel.values(), Corridor.Channel::key));
    FigureKey.Part part = in.word("part", Words.of(FigureKey.Part.values(), FigureKey.Part::key));
    if (channel == null) {
      in.missing("channel", "what must stay in the band: current_ratio or speed_pct");
    }
    if (part == null) {
      in.missing("part", "where time counts from: start or stop");
    }
    Polyline upper = bound(in, "upper");
    Polyline lower = bound(in, "lower");
    in.finish();
    if (upper.isEmpty() && lower.isEmpty()) {
      in.missing("upper", "the bound, as points [[time_s, value], ...]; or lower");
      return null;
    }
    return channel == null || part == null ? null : new Corridor(channel, part, upper, lower);
  }

  private static Polyline bound(TomlSection in, String key) {
    List<Polyline.Point> points = new ArrayList<>();
    for (double[] pair : in.pairs(key)) {
      if (Math.abs(pair[0]) > LONGEST_S || Math.abs(pair[1]) > LONGEST_S) {
        in.problem(
            key, key + " has a point beyond 100000; times are in s, values in the channel's unit");
        return Polyline.NONE;
      }
      if (!points.isEmpty() && pair[0] < points.get(points.size() - 1).timeS()) {
        in.problem(key, key + " goes back in time at " + pair[0] + " s; order its points by time");
        return Polyline.NONE;
      }
      points.add(new Polyline.Point(pair[0], pair[1]));
    }
    if (points.size() == 1) {
      in.problem(key, key + " has one point; a bound needs at least two");
      return Polyline.NONE;
    }
    return points.isEmpty() ? Polyline.NONE : new Polyline(points);
  }
}
