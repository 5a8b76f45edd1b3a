package rampwright.app.chart;

import org.jspecify.annotations.Nullable;

/**
 * What stands over and under a chart.
 *
 * @param title asset and trial
 * @param subtitle one line more: settings, date; may be empty
 * @param outcome how the start ended, in the words of the figures; null when it does not apply
 * @param judgement the verdict on the whole; {@link Judgement#NONE} when there was no envelope
 * @param invented whether the data is an invented sample; then the chart says so
 * @param footnote source, checksum, version of the tool; may be empty
 */
public record Heading(
    String title,
    String subtitle,
    @Nullable String outcome,
    Judgement judgement,
    boolean invented,
    String footnote) {

  /** A title alone. */
  public static Heading of(String title) {
    return new Heading(title, "", null, Judgement.NONE, false, "");
  }
}
