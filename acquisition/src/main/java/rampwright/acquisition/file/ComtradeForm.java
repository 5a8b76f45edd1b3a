package rampwright.acquisition.file;

/**
 * How a trace is to be written as COMTRADE.
 *
 * @param edition the edition to follow
 * @param encoding BINARY32 and FLOAT32 need the 2013 edition
 * @param station name of the place; commas in it become blanks
 * @param device name of the recorder; likewise
 * @param lineFrequencyHz frequency of the supply; 0 when not known
 * @param replace write over files that are there already
 */
public record ComtradeForm(
    ComtradeEdition edition,
    ComtradeEncoding encoding,
    String station,
    String device,
    double lineFrequencyHz,
    boolean replace) {
  public ComtradeForm {
    if (edition != ComtradeEdition.E2013 && encoding.analogBytes() == Integer.BYTES) {
      throw new IllegalArgumentException(
          encoding
              + " came with the 2013 edition; the "
              + edition.year()
              + " edition has ASCII and BINARY");
    }
    if (!(lineFrequencyHz >= 0) || Double.isInfinite(lineFrequencyHz)) {
      throw new IllegalArgumentException("line frequency " + lineFrequencyHz + " Hz");
    }
  }

  /** The 2013 edition in that encoding, nothing written over. */
  public static ComtradeForm of2013(ComtradeEncoding encoding) {
    return new ComtradeForm(ComtradeEdition.E2013, encoding, "rampwright", "trace", 0, false);
  }

  /** The 1991 edition in that encoding, nothing written over. */
  public static ComtradeForm of1991(ComtradeEncoding encoding) {
    return new ComtradeForm(ComtradeEdition.E1991, encoding, "rampwright", "trace", 0, false);
  }

  /** The 1999 edition in that encoding, nothing written over. */
  public static ComtradeForm of1999(ComtradeEncoding encoding) {
    return new ComtradeForm(ComtradeEdition.E1999, encoding, "rampwright", "trace", 0, false);
  }
}
