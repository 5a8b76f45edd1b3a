package rampwright.app.page;

/** Text of a page whose parts may come from anybody. */
public final class Steerless {
  private Steerless() {}

  /** What turns the direction of writing, or is no sign at all, becomes the sign for that. */
  public static String of(String html) {
    StringBuilder safe = new StringBuilder(html.length());
    html.codePoints()
        .forEach(
            point -> {
              int type = Character.getType(point);
              boolean steers =
                  (type == Character.CONTROL && point != '\n')
                      || type == Character.FORMAT
                      || type == Character.SURROGATE
                      || type == Character.LINE_SEPARATOR
                      || type == Character.PARAGRAPH_SEPARATOR
                      || (point & 0xfffe) == 0xfffe;
              safe.appendCodePoint(steers ? 0xfffd : point);
            });
    return safe.toString();
  }
}
