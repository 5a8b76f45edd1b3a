package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;

/** Breaks text between words. */
final class TextWrap {
  private TextWrap() {}

  /** Lines of at most so many letters; a longer word stands alone on its line. One at least. */
  static List<String> broken(String text, int most) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ", -1)) {
      boolean fits = width(line) + 1 + width(word) <= most;
      if (line.length() > 0 && !fits && !isOneNumber(line, word)) {
        lines.add(line.toString());
        line.setLength(0);
      } else if (line.length() > 0) {
        line.append(' ');
      }
      line.append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  /** Digits are parted by threes; such a number stays in one piece. */
  private static boolean isOneNumber(CharSequence before, String word) {
    return word.length() >= 3
        && Character.isDigit(before.charAt(before.length() - 1))
        && word.chars().limit(3).allMatch(Character::isDigit)
        && (word.length() == 3 || !Character.isDigit(word.charAt(3)));
  }

  static int width(CharSequence text) {
    return Character.codePointCount(text, 0, text.length());
  }
}
