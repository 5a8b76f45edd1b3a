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
  private static final String ONE = "(L\\s?[123]|[ABCRSTUVW123])";
  private static final List<String> SINGLES = List.of("ARU1", "BSV2", "CTW3");
  private static final Pattern PAIR = Pattern.compile(ONE + "\\s*[-/_ ]?\\s*" + ONE);
  private static final Pattern NAMED_PAIR =
      Pattern.compile("(?:.*[^A-Z])?[UVE][_ ]?" + ONE + "[-/_ ]?" + ONE);
  private static final Pattern NAMED =
      Pattern.compile(
          "(?:.*[^A-Z])?[IUVE][_ ]?(?:L\\s?([123])|([ABCRST])N?(?:[_ ]?\\d{1,2})?|([123]))(?:[^A-Z0-9].*)?");
  private static final Pattern SPOKEN =
      Pattern.compile("(?:.*[^A-Z0-9])?(?:PH(?:ASE)?[_ ]?([ABCRST123])|L([123]))(?:[^A-Z0-9].*)?");

  /**
   * The phase that the channel's phase field names, else its name; empty when neither does. A name
   * that plainly joins two conductors ("Uab") goes before a phase field that names one of them, as
   * many recorders have only room for one letter there.
   */
  static Optional<ComtradePhase> of(ComtradeAnalog channel) {
    String name = channel.id().strip().toUpperCase(Locale.ROOT);
    Optional<ComtradePhase> namedPair = pair(NAMED_PAIR.matcher(name));
    if (namedPair.isPresent()) {
      return namedPair;
    }
    String field = channel.phase().strip().toUpperCase(Locale.ROOT);
    if (!field.isEmpty()) {
      int single = single(field);
      return single > 0
          ? Optional.of(new ComtradePhase(false, single, false))
          : pair(PAIR.matcher(field));
    }
    return ofName(name);
  }

  private static Optional<ComtradePhase> ofName(String name) {
    Matcher named = NAMED.matcher(name);
    if (named.matches()) {
      String digit = named.group(3);
      String other = named.group(1) != null ? named.group(1) : named.group(2);
      String word = digit != null ? digit : other;
      if (word != null) {
        return Optional.of(new ComtradePhase(false, single(word), digit != null));
      }
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

  private static Optional<ComtradePhase> pair(Matcher matcher) {
    if (!matcher.matches()) {
      return Optional.empty();
    }
    String first = matcher.group(1);
    String second = matcher.group(2);
    if (first == null || second == null) {
      return Optional.empty();
    }
    int from = single(first);
    int to = single(second);
    // "Ua2" is phase A of something numbered 2; L2-L1 has the opposite sign of v12.
    return naming(first) == naming(second) && to == from % 3 + 1
        ? Optional.of(new ComtradePhase(true, from, false))
        : Optional.empty();
  }

  /** Which way of naming conductors a word is of: ABC, RST, UVW or 123. */
  private static int naming(String word) {
    String letter = word.substring(word.length() - 1);
    int naming = -1;
    for (String same : SINGLES) {
      naming = Math.max(naming, same.indexOf(letter));
    }
    return naming;
  }

  private static int single(String word) {
    String letter = word.startsWith("L") ? word.substring(1).strip() : word;
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
