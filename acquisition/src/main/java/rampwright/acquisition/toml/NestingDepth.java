package rampwright.acquisition.toml;

/**
 * How deep brackets nest in a TOML text, strings and comments aside. The parser recurses; a text
 * that nests without end must be refused before it is parsed.
 */
final class NestingDepth {
  private NestingDepth() {}

  /** Line (1 based) where brackets first nest deeper than allowed; 0 when they do not. */
  static int lineDeeperThan(String text, int allowed) {
    int depth = 0;
    int line = 1;
    int i = 0;
    while (i < text.length()) {
      char c = text.charAt(i);
      switch (c) {
        case '\n' -> line++;
        case '#' -> {
          int end = text.indexOf('\n', i);
          i = end < 0 ? text.length() : end - 1;
        }
        case '"', '\'' -> {
          int end = endOfString(text, i, c);
          line += newlines(text, i, end);
          i = end - 1;
        }
        case '[', '{' -> {
          depth++;
          if (depth > allowed) {
            return line;
          }
        }
        case ']', '}' -> depth = Math.max(0, depth - 1);
        default -> {}
      }
      i++;
    }
    return 0;
  }

  private static int endOfString(String text, int from, char quote) {
    String triple = String.valueOf(quote).repeat(3);
    boolean multiLine = text.startsWith(triple, from);
    int i = from + (multiLine ? 3 : 1);
    while (i < text.length()) {
      char c = text.charAt(i);
      if (c == '\\' && quote == '"') {
        i += 2;
        continue;
      }
      if (multiLine ? text.startsWith(triple, i) : c == quote) {
        return i + (multiLine ? 3 : 1);
      }
      if (!multiLine && c == '\n') {
        // An open string ends with its line; the parser will complain about it.
        return i;
      }
      i++;
    }
    return text.length();
  }

  private static int newlines(String text, int from, int to) {
    int count = 0;
    for (int i = from; i < Math.min(to, text.length()); i++) {
      if (text.charAt(i) == '\n') {
        count++;
      }
    }
    return count;
  }
}
