package rampwright.analysis.figure;

/** Which definitions the figures are taken by. */
public final class Definitions {
  /**
   * Version of the definitions in the module's {@code docs/figures.md} and of the rules that carry
   * them out. Raised by one whenever the same trace would give another value of any figure, so that
   * a store of figures can tell which of them to take again.
   */
  public static final String VERSION = "1";

  private Definitions() {}
}
