package rampwright.acquisition.file;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Which conductor, or which two, an analog channel belongs to.
 *
 * @param line true for a voltage between two conductors
 * @param number 1, 2, 3 for L1, L2, L3, or for L1-L2, L2-L3, L3-L1
 * @param byDigit true when only a bare digit in the name tells, which may also number something
 *     else
 */
record ComtradePhase(boolean line, int number, boolean byDigit) {
  private static final String LETTER = "(?:L\\s?[123]|[ABC]|[RST]|[UVW])";
  private static final List<String> SINGLES = List.of("ARU1", "BSV2", "CTW3");
  private static final Pattern PAIR =
      Pattern.compile("(" + LETTER + "|[123])\\s*[-/_ ]?\\s*(" + LETTER + "|[123])");
  private static final Pattern NAMED_PAIR =
      Pattern.compile("(?:.*[^A-Z])?[UVE][_ ]?(" + LETTER + "|[123])[-/_ ]?(" + LETTER + "|[123])");
  private static final Pattern NAMED =
      Pattern.compile(
          "(?:.*[^A-Z])?[IUVE][_ ]?(?:L\\s?([123])|([ABCRST])(?:[_ ]?\\d{1,2})?|([123]))(?:[^A-Z0-9].*)?");
  private static final Pattern SPOKEN =
      Pattern.compile("(?:.*[^A-Z0-9])?(?:PH(?:ASE)?[_ ]?([ABCRST123])|L([123]))(?:[^A-Z0-9].*)?");

  /** The phase that the channel's phase field names, else its name; empty when neither does. */
  static Optional<ComtradePhase> of(ComtradeAnalog channel) {
    String field = channel.phase().strip().toUpperCase(Locale.ROOT);
    if (!field.isEmpty()) {
      if (field.length() <= 2) {
        int single = single(field);
        if (single > 0) {
          return Optional.of(new ComtradePhase(false, single, false));
        }
      }
      Matcher pair = PAIR.matcher(field);
      if (pair.matches()) {
        return pair(pair.group(1), pair.group(2), false);
      }
      return Optional.empty();
    }
    return ofName(channel.id());
  }

  private static Optional<ComtradePhase> ofName(String id) {
    String name = id.strip().toUpperCase(Locale.ROOT);
    Matcher pair = NAMED_PAIR.matcher(name);
    if (pair.matches()) {
      return pair(pair.group(1), pair.group(2), false);
    }
    Matcher named = NAMED.matcher(name);
    if (named.matches()) {
      String digit = named.group(3);
      if (digit != null) {
        return Optional.of(new ComtradePhase(false, single(digit), true));
      }
      String other = named.group(1) != null ? named.group(1) : named.group(2);
      return other == null
          ? Optional.empty()
          : Optional.of(new ComtradePhase(false, single(other), false));
    }
    Matcher spoken = SPOKEN.matcher(name);
    if (spoken.matches()) {
      String word = spoken.group(1) != null ? spoken.group(1) : spoken.group(2);
      if (word != null) {
        return Optional.of(new ComtradePhase(false, single(word), false));
      }
    }
    return Optional.empty();
  }

  private static Optional<ComtradePhase> pair(String first, String second, boolean byDigit) {
    int from = single(first);
    int to = single(second);
    // L2-L1 has the opposite sign of v12 and is not taken for it.
    return from > 0 && to == from % 3 + 1
        ? Optional.of(new ComtradePhase(true, from, byDigit))
        : Optional.empty();
  }

  private static int single(String word) {
    String letter = word.replace("L", "").strip();
    if (letter.length() != 1) {
      return 0;
    }
    for (int i = 0; i < SINGLES.size(); i++) {
      if (SINGLES.get(i).contains(letter)) {
        return i + 1;
      }
    }
    return 0;
  }
}
