package rampwright.acquisition.toml;

/**
 * One thing that is wrong in a file.
 *
 * @param file name of the file as the person gave it
 * @param line 1 based; 0 when the problem has no line
 * @param text which key, what is wrong, what is allowed, what to do
 */
public record Problem(String file, int line, String text) {

  /** The problem as one line for a person. */
  public String describe() {
    return file + (line > 0 ? " line " + line : "") + ": " + text;
  }
}
