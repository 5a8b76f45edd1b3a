package rampwright.acquisition.file;

import org.jspecify.annotations.Nullable;

/**
 * A file that could not be read or written, said so that a person can mend it: what is wrong,
 * where, what was expected and what to do.
 */
public final class TraceFileException extends Exception {
  private static final long serialVersionUID = 1L;

  private final String file;
  private final long line;
  private final int column;

  /**
   * A problem at a place.
   *
   * @param file name of the file as the person gave it
   * @param line 1 based; 0 when the problem has no line
   * @param column 1 based column (cell) number; 0 when it has none
   * @param problem what is wrong, what was expected, what to do
   */
  public TraceFileException(
      String file, long line, int column, String problem, @Nullable Throwable cause) {
    super(place(file, line, column) + ": " + problem, cause);
    this.file = file;
    this.line = line;
    this.column = column;
  }

  /** A problem of the whole file. */
  public TraceFileException(String file, String problem) {
    this(file, 0, 0, problem, null);
  }

  private static String place(String file, long line, int column) {
    StringBuilder place = new StringBuilder(file);
    if (line > 0) {
      place.append(" line ").append(line);
    }
    if (column > 0) {
      place.append(" column ").append(column);
    }
    return place.toString();
  }

  public String file() {
    return file;
  }

  public long line() {
    return line;
  }

  public int column() {
    return column;
  }
}
