package rampwright.acquisition.file;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What a column's name says: words of several languages, symbols and phase markers.
 *
 * @param words meanings of the words found
 * @param phases phase numbers 1 to 3 in the order written ("L2-L3" is 2, 3); empty when none is
 */
record HeaderMeaning(Set<Word> words, List<Integer> phases) {
  /** Meaning of a word in a header; the lists are the resource {@code column-words.csv}. */
  enum Word {
    TIME,
    STAMP,
    DATE,
    CLOCK,
    COUNTER,
    CURRENT,
    VOLTAGE,
    SPEED,
    TORQUE,
    POWER,
    PRESSURE,
    RUN,
    SETPOINT,
    EXTREME,
    DERIVED,
    OTHER,
    REACTIVE,
    MECHANICAL,
    LINE,
    PHASE,
    CHANNEL,
    PLAIN,
    /** Turns of the shaft, which makes hertz turns per second. */
    ROTATION
  }

  private static final Map<String, Set<Word>> WORDS = load();

  /** Words whose number counts machines, not phases. */
  private static final Set<String> MACHINES =
      Set.of("motor", "mot", "moteur", "motore", "pump", "pumpe", "drive", "antrieb", "fan");

  private static final Pattern SYMBOL =
      Pattern.compile(
          "([iuvp])(?:rms|eff)?(l?[123]|[abcrstuvw])(?:(l?[123]|[abcrstuvw])|n)?(?:rms|eff)?");
  private static final Pattern NUMBERED = Pattern.compile("([a-z]{2,}?)(?:l)?([123])");
  private static final Pattern MARKERS =
      Pattern.compile("(l?[123]|[abcrstuvw])(?:(l?[123]|[abcrstuvw])|n)?");

  /** Reads a name, for example {@code Strom L1} or {@code i1}. */
  static HeaderMeaning of(String name) {
    EnumSet<Word> words = EnumSet.noneOf(Word.class);
    List<Integer> phases = new ArrayList<>();
    boolean afterChannel = false;
    boolean first = true;
    for (String token : tokens(name)) {
      // A channel's number is not a phase: "CH 2", "Ch 00".
      if (!(afterChannel && token.chars().allMatch(Character::isDigit))) {
        read(token, first, words, phases);
      }
      afterChannel = isChannel(token) || MACHINES.contains(token);
      first = false;
    }
    return new HeaderMeaning(words, phases);
  }

  boolean has(Word word) {
    return words.contains(word);
  }

  /** The one quantity named; null when none or more than one is. */
  @Nullable Word quantity() {
    Word found = null;
    for (Word word :
        List.of(
            Word.CURRENT,
            Word.VOLTAGE,
            Word.SPEED,
            Word.TORQUE,
            Word.POWER,
            Word.PRESSURE,
            Word.RUN)) {
      if (words.contains(word)) {
        if (found != null) {
          return null;
        }
        found = word;
      }
    }
    return found;
  }

  private static boolean isChannel(String token) {
    return WORDS.getOrDefault(token, Set.of()).contains(Word.CHANNEL);
  }

  private static void read(String token, boolean first, Set<Word> words, List<Integer> phases) {
    Set<Word> known = WORDS.get(token);
    // A lone letter is a symbol in front and a phase behind: "U L1", "Strom U".
    if (known != null && (first || token.length() > 1)) {
      words.addAll(known);
      return;
    }
    Matcher markers = MARKERS.matcher(token);
    if (markers.matches()
        && !(first
            && token.length() == 2
            && SYMBOL.matcher(token).matches()
            && "iuvp".indexOf(token.charAt(0)) >= 0)) {
      phases.add(phase(markers.group(1)));
      if (markers.group(2) != null) {
        phases.add(phase(markers.group(2)));
      }
      return;
    }
    Matcher symbol = SYMBOL.matcher(token);
    if (symbol.matches()) {
      words.add(
          switch (token.charAt(0)) {
            case 'i' -> Word.CURRENT;
            case 'p' -> Word.POWER;
            default -> Word.VOLTAGE;
          });
      phases.add(phase(symbol.group(2)));
      if (symbol.group(3) != null) {
        phases.add(phase(symbol.group(3)));
      }
      return;
    }
    Matcher numbered = NUMBERED.matcher(token);
    if (numbered.matches()) {
      Set<Word> stem = WORDS.get(numbered.group(1));
      if (stem != null) {
        words.addAll(stem);
        if (!stem.contains(Word.CHANNEL)) {
          phases.add(phase(numbered.group(2)));
        }
      }
    }
  }

  private static int phase(String marker) {
    return switch (marker.charAt(marker.length() - 1)) {
      case '1', 'a', 'r', 'u' -> 1;
      case '2', 'b', 's', 'v' -> 2;
      default -> 3;
    };
  }

  private static List<String> tokens(String name) {
    String plain =
        withoutAccents(name)
            .replace("\u0142", "l")
            .replace("\u0141", "L")
            .replace("\u00df", "ss")
            .replace("\u00f8", "o")
            .replace("\u00e6", "a")
            .replace("\u03c9", "omega")
            .replaceAll("(\\p{Lower}{2})(\\p{Upper})", "$1 $2")
            .toLowerCase(Locale.ROOT);
    List<String> tokens = new ArrayList<>();
    for (String token : plain.split("[^a-z0-9]+", -1)) {
      if (!token.isEmpty()) {
        tokens.add(token);
      }
    }
    return tokens;
  }

  private static String withoutAccents(String name) {
    for (int i = 0; i < name.length(); i++) {
      if (name.charAt(i) > 127) {
        return Normalizer.normalize(name, Normalizer.Form.NFD).replaceAll("\\p{M}", "");
      }
    }
    return name;
  }

  private static Map<String, Set<Word>> load() {
    Map<String, Set<Word>> map = new HashMap<>();
    for (String line : UnitTable.lines("column-words.csv")) {
      int colon = line.indexOf(':');
      Word meaning = Word.valueOf(line.substring(0, colon).toUpperCase(Locale.ROOT));
      for (String word : line.substring(colon + 1).strip().split(" +", -1)) {
        map.computeIfAbsent(word, key -> EnumSet.noneOf(Word.class)).add(meaning);
      }
    }
    return map;
  }
}
