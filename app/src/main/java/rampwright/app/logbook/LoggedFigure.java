package rampwright.app.logbook;

/**
 * One figure of a logged start.
 *
 * @param value in {@code unit}; NaN where it could not be had
 * @param uncertainty standard uncertainty; NaN where it could not be told
 * @param why it could not be had, or how it was found; may be empty
 */
public record LoggedFigure(double value, String unit, double uncertainty, String why) {
  public LoggedFigure {
    // a store knows one kind of missing number, and one zero
    value = Double.isFinite(value) ? value + 0.0 : Double.NaN;
    uncertainty = Double.isFinite(uncertainty) ? uncertainty + 0.0 : Double.NaN;
    unit = Words.kept(unit);
    why = Words.kept(why);
  }
}
