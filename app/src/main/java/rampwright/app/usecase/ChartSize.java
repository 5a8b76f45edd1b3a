package rampwright.app.usecase;

/**
 * Size of a picture.
 *
 * @param widthPx 320 to 10000
 * @param heightPx 240 to 10000
 */
public record ChartSize(int widthPx, int heightPx) {
  /** Fits a screen and a page. */
  public static final ChartSize DEFAULT = new ChartSize(1600, 900);

  private static final int LARGEST = 10_000;

  public ChartSize {
    if (widthPx < 320 || heightPx < 240 || widthPx > LARGEST || heightPx > LARGEST) {
      throw new IllegalArgumentException(
          "a picture of "
              + widthPx
              + "x"
              + heightPx
              + " pixels; allowed are 320x240 to 10000x10000");
    }
  }
}
