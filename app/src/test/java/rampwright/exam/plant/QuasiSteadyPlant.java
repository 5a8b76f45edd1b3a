package rampwright.exam.plant;

/**
 * Runs a motor up and down, taking its electrical side as settled at every instant.
 *
 * <p>Method: speed by Euler steps of 1 to 5 ms, less than a third of the time constant of the steep
 * side near synchronous speed; at every step the machine is solved for the voltage the starter lets
 * through, with the drop in the supply. Current harmonics raise the RMS value, never the torque.
 *
 * <p>Valid: where electrical transients (tens of milliseconds) are short against the run-up. Rotor
 * heat of a start on full voltage is 9 to 18 % too low against a full transient model.
 */
public final class QuasiSteadyPlant {
  private final TruePlant plant;

  public QuasiSteadyPlant(TruePlant plant) {
    this.plant = plant;
  }

  /**
   * How a trial is conducted.
   *
   * @param runS from by-pass to the stop order
   * @param abortS from inception to a cut by hand; NaN: none
   * @param toRest false: leave off when full voltage is reached (no stop figures then)
   * @param spinning share of synchronous speed at which the shaft turns, coasting, where the record
   *     begins
   */
  public record Conduct(double runS, double abortS, boolean toRest, double spinning) {
    public static final Conduct START_ONLY = new Conduct(0.5, Double.NaN, false);
    public static final Conduct WHOLE = new Conduct(6, Double.NaN, true);

    /** From standstill. */
    public Conduct(double runS, double abortS, boolean toRest) {
      this(runS, abortS, toRest, 0);
    }
  }

  /** One trial. */
  public Run run(PlantSettings settings, TruePlant.Day day, Conduct conduct) {
    return new SteadyTrial(plant, settings, day, conduct).run();
  }
}
