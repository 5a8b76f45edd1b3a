package rampwright.app.cli;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where a command writes: results to one stream, talk to the other. Everything a person reads is
 * made fit for a terminal here; what machines read goes out as it is.
 */
public final class Screen {
  private final PrintWriter results;
  private final PrintWriter talk;

  /** Columns that are taken for granted where nothing says how many there are. */
  public static final int USUAL_WIDTH = 100;

  private static final int NARROWEST = 60;
  private static final int WIDEST = 500;

  private final boolean interactive;
  private final int width;

  /**
   * A screen of the usual width.
   *
   * @param results standard output
   * @param talk standard error
   * @param interactive whether a person watches, so that progress is shown on one line
   */
  public Screen(Writer results, Writer talk, boolean interactive) {
    this(results, talk, interactive, USUAL_WIDTH);
  }

  /**
   * A screen.
   *
   * @param width its columns; what is too narrow or wide to be meant is brought within 60 to 500
   */
  public Screen(Writer results, Writer talk, boolean interactive, int width) {
    this.results = new PrintWriter(results, false);
    this.talk = new PrintWriter(talk, true);
    this.interactive = interactive;
    this.width = Math.max(NARROWEST, Math.min(WIDEST, width));
  }

  /**
   * The columns to keep to: what the environment says, else where a person watches the terminal's
   * own, else the usual ones.
   *
   * @param environment the variable COLUMNS; null where it is not set
   */
  public static int columns(@Nullable String environment, boolean watched) {
    if (environment != null) {
      try {
        return Integer.parseInt(environment.strip());
      } catch (NumberFormatException notANumber) {
        return USUAL_WIDTH;
      }
    }
    TerminalSize size = watched ? TerminalSize.ofTerminal() : null;
    return size == null ? USUAL_WIDTH : Math.min(size.columns(), USUAL_WIDTH);
  }

  boolean isInteractive() {
    return interactive;
  }

  /** A line of a result for people. */
  void line(String text) {
    results.write(SafeText.of(text));
    results.write('\n');
  }

  /** A table, no wider than the screen. */
  void table(TextTable table) {
    table.lines(width).forEach(this::line);
  }

  /**
   * Prose, broken between words at the screen's edge.
   *
   * @param indent before the first line; further ones are set four further in
   */
  void prose(String indent, String text) {
    String safe = SafeText.of(text);
    List<String> lines = TextWrap.broken(safe, width - indent.length() - 4);
    for (int i = 0; i < lines.size(); i++) {
      line(indent + (i == 0 ? "" : "    ") + lines.get(i));
    }
  }

  /** A result for machines, as it is. */
  void raw(String text) {
    results.write(text);
    results.flush();
  }

  /** A line of talk; where a person watches, broken between words at the screen's edge. */
  void say(String text) {
    String safe = SafeText.of(text);
    if (interactive && TextWrap.width(safe) > width) {
      String words = safe.stripLeading();
      String indent = safe.substring(0, safe.length() - words.length());
      List<String> lines = TextWrap.broken(words, width - indent.length() - 4);
      safe = indent + String.join("\n" + indent + "    ", lines);
    }
    talk.write(safe);
    talk.write('\n');
    talk.flush();
  }

  /** Talk that overwrites the line it stands on. */
  void overwrite(String text) {
    talk.write('\r');
    talk.write(SafeText.of(text));
    talk.flush();
  }

  /** A picture of lines made by us, steering and all; what devices say must be safe in it. */
  void paint(String frame) {
    talk.write(frame);
    talk.flush();
  }

  void flush() {
    results.flush();
    talk.flush();
  }

  /** Results as a writer for the command-line library. */
  PrintWriter resultWriter() {
    return new PrintWriter(new SafeWriter(results), true);
  }

  /** Talk as a writer for the command-line library. */
  PrintWriter talkWriter() {
    return new PrintWriter(new SafeWriter(talk), true);
  }

  private static final class SafeWriter extends FilterWriter {
    SafeWriter(Writer out) {
      super(out);
    }

    @Override
    public void write(int c) throws IOException {
      out.write(SafeText.of(String.valueOf((char) c)));
    }

    @Override
    public void write(char[] text, int from, int count) throws IOException {
      out.write(SafeText.of(new String(text, from, count)));
    }

    @Override
    public void write(String text, int from, int count) throws IOException {
      out.write(SafeText.of(text.substring(from, from + count)));
    }
  }
}
