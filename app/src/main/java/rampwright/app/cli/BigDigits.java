package rampwright.app.cli;

import java.util.Map;

/** Figures five lines high, to be read from where the motor is. */
final class BigDigits {
  static final int HEIGHT = 5;

  private static final Map<Character, String[]> GLYPHS =
      Map.ofEntries(
          glyph('0', "####", "#  #", "#  #", "#  #", "####"),
          glyph('1', "  # ", " ## ", "  # ", "  # ", " ###"),
          glyph('2', "####", "   #", "####", "#   ", "####"),
          glyph('3', "####", "   #", " ###", "   #", "####"),
          glyph('4', "#  #", "#  #", "####", "   #", "   #"),
          glyph('5', "####", "#   ", "####", "   #", "####"),
          glyph('6', "####", "#   ", "####", "#  #", "####"),
          glyph('7', "####", "   #", "  # ", " #  ", " #  "),
          glyph('8', "####", "#  #", "####", "#  #", "####"),
          glyph('9', "####", "#  #", "####", "   #", "####"),
          glyph('-', "    ", "    ", "####", "    ", "    "),
          glyph('.', " ", " ", " ", " ", "#"),
          glyph(':', " ", "#", " ", "#", " "),
          glyph(' ', "    ", "    ", "    ", "    ", "    "));

  private BigDigits() {}

  private static Map.Entry<Character, String[]> glyph(char c, String... rows) {
    for (int i = 0; i < rows.length; i++) {
      rows[i] = rows[i].replace('#', '\u2588');
    }
    return Map.entry(c, rows);
  }

  /** The five lines of a text of digits, point, colon and minus; others are blank. */
  static String[] lines(String text) {
    String[] lines = {"", "", "", "", ""};
    for (int i = 0; i < text.length(); i++) {
      String[] glyph = GLYPHS.getOrDefault(text.charAt(i), new String[] {"", "", "", "", ""});
      for (int row = 0; row < HEIGHT; row++) {
        lines[row] += (i == 0 ? "" : " ") + glyph[row];
      }
    }
    return lines;
  }
}
