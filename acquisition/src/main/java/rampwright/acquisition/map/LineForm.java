package rampwright.acquisition.map;

import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How an instrument's lines are made.
 *
 * @param separator what stands between fields; null when a pattern takes the line apart
 * @param pattern a pattern whose named groups are channels; null when there are fields
 * @param terminator what ends a line: {@code \n}, {@code \r} or {@code \r\n}
 * @param decimalComma whether numbers are written with a comma
 */
public record LineForm(
    @Nullable String separator,
    @Nullable Pattern pattern,
    String terminator,
    boolean decimalComma) {}
