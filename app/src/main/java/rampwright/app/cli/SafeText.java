package rampwright.app.cli;

import java.util.Locale;

/** Text that may hold anything, made fit for a terminal. */
final class SafeText {
  private SafeText() {}

  /**
   * The text with every control and every invisible formatting character but the line feed written
   * out as {@code \x1b} or {@code U+202e}, so that a file name or a note cannot steer the terminal
   * or turn the direction of writing.
   */
  static String of(String text) {
    StringBuilder safe = null;
    for (int i = 0; i < text.length(); ) {
      int point = text.codePointAt(i);
      int size = Character.charCount(point);
      if (isHarmless(point)) {
        if (safe != null) {
          safe.appendCodePoint(point);
        }
      } else {
        if (safe == null) {
          safe = new StringBuilder(text.substring(0, i));
        }
        safe.append(String.format(Locale.ROOT, point < 0x100 ? "\\x%02x" : "U+%04x", point));
      }
      i += size;
    }
    return safe == null ? text : safe.toString();
  }

  private static boolean isHarmless(int point) {
    if (point == '\n') {
      return true;
    }
    int type = Character.getType(point);
    return type != Character.CONTROL
        && type != Character.FORMAT
        && type != Character.SURROGATE
        && type != Character.LINE_SEPARATOR
        && type != Character.PARAGRAPH_SEPARATOR;
  }
}
