package rampwright.app.advice;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * What to set next and why.
 *
 * @param status what kind of advice this is
 * @param reason the status in one sentence
 * @param settings what to set: the present ones for {@code keep}, the nearest for {@code cannot
 *     meet}
 * @param changes what differs from the present settings
 * @param predicted what the settings will do, by figure key
 * @param starterDipPct dip at the starter where voltages are measured before its cable; null where
 *     they are measured at the starter
 * @param chanceAllMet chance that one trial meets every limit the model can assess; null without
 *     limits
 * @param binding limits that stand in the way
 * @param notAssessable limits on figures the model does not give
 * @param cautions what ratings leave room for, and what could not be checked
 * @param model what the advice rests on
 * @param trace predicted run of the most likely model, for an overlay
 * @param ratedCurrentA base of the trace's current
 * @param currentA predicted current of the highest phase over time; null without draws
 * @param speedRpm predicted speed over time; null without draws
 */
public record Advice(
    Status status,
    String reason,
    StarterSettings settings,
    List<Change> changes,
    Map<String, Range> predicted,
    @Nullable Range starterDipPct,
    @Nullable Double chanceAllMet,
    List<Binding> binding,
    List<String> notAssessable,
    List<String> cautions,
    Model model,
    Trajectory trace,
    double ratedCurrentA,
    @Nullable Course currentA,
    @Nullable Course speedRpm) {

  /** Kinds of advice. */
  public enum Status {
    KEEP("keep"),
    CHANGE("change"),
    CANNOT_MEET("cannot meet"),
    NEED_ANOTHER_TRIAL("need another trial");

    private final String key;

    Status(String key) {
      this.key = key;
    }

    /** Word used in JSON. */
    public String key() {
      return key;
    }
  }

  /** A setting to change: its key, old and new value as text, and why. */
  public record Change(String setting, String from, String to, String why) {}

  /** A predicted figure: median and the 5 % and 95 % points. */
  public record Range(double median, double low, double high) {
    // The 5 % and 95 % points of a normal spread lie so many standard deviations out.
    private static final double OUT = 1.645;

    /** Standard deviation of a normal spread with this range. */
    public double spread() {
      return (high - low) / (2 * OUT);
    }
  }

  /**
   * A limit that stands in the way.
   *
   * @param limit the limit in words
   * @param reachable the best value of its figure at which every other limit is kept; NaN: none
   * @param needed the limit's value
   * @param evidence why, in whole sentences
   */
  public record Binding(String limit, double reachable, double needed, String evidence) {}

  /**
   * What the advice rests on.
   *
   * @param residual root mean square of the fit's weighted residuals, 0 without trials
   * @param parameters the main parameters, by name
   * @param basis {@code fitted} or {@code nameplate}
   * @param assumed parameters that no trial told anything about
   */
  public record Model(
      double residual, Map<String, Double> parameters, String basis, List<String> assumed) {}
}
