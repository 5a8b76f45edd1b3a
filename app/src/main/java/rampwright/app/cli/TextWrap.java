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
    for (String piece : pieces(text)) {
      if (line.length() > 0 && width(line) + 1 + width(piece) > most) {
        lines.add(line.toString());
        line.setLength(0);
      } else if (line.length() > 0) {
        line.append(' ');
      }
      line.append(piece);
    }
    lines.add(line.toString());
    return lines;
  }

  /** The words, those that make up one number together. */
  private static List<String> pieces(String text) {
    List<String> pieces = new ArrayList<>();
    for (String word : text.split(" ", -1)) {
      int last = pieces.size() - 1;
      if (last >= 0 && isOneNumber(pieces.get(last), word)) {
        pieces.set(last, pieces.get(last) + ' ' + word);
      } else {
        pieces.add(word);
      }
    }
    return pieces;
  }

  /** Digits are parted by threes; such a number stays in one piece. */
  private static boolean isOneNumber(String before, String word) {
    return !before.isEmpty()
        && word.length() >= 3
        && Character.isDigit(before.charAt(before.length() - 1))
        && word.chars().limit(3).allMatch(Character::isDigit)
        && (word.length() == 3 || !Character.isDigit(word.charAt(3)));
  }

  static int width(CharSequence text) {
    return Character.codePointCount(text, 0, text.length());
  }
}
