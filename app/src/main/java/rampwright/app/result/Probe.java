package rampwright.app.result;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one device said when it was read once.
 *
 * @param device as in its map
 * @param link how it was reached
 * @param lines its channels, as far as they were read
 * @param faults what could not be read and why; one line each
 */
public record Probe(String device, String link, List<Line> lines, List<String> faults) {
  public Probe {
    lines = List.copyOf(lines);
    faults = List.copyOf(faults);
  }

  /**
   * One channel.
   *
   * @param channel its key
   * @param where function and address, or field
   * @param raw words in hex, a bit, or the text that was read
   * @param value in {@code unit}; null where the device says "no reading"
   * @param unit the channel's unit
   * @param remark what is odd about it and what might mend it; empty when nothing is
   */
  public record Line(
      String channel,
      String where,
      String raw,
      @Nullable Double value,
      String unit,
      String remark) {}
}
