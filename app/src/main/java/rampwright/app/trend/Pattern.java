package rampwright.app.trend;

import static rampwright.app.trend.Clause.doesNotRise;
import static rampwright.app.trend.Clause.falls;
import static rampwright.app.trend.Clause.mayFall;
import static rampwright.app.trend.Clause.mayRise;
import static rampwright.app.trend.Clause.rises;
import static rampwright.app.trend.Clause.stays;

import java.util.List;

/**
 * Figures that move together, and where a person would look first. All of them: common practice, no
 * source; each follows from the run-up's balance of torque, J dw/dt = motor - load, and from the
 * drop of current over the supply's impedance. How often each is right on simulated machines:
 * {@code docs/trend.md}.
 *
 * @param key name in JSON
 * @param look where to look first
 * @param must all of these, or the pattern is not offered
 * @param hints more of these, the better; what contradicts is said
 */
record Pattern(String key, String look, List<Clause> must, List<Clause> hints) {
  private static final String START = "start_time_s";
  private static final String BREAKAWAY = "breakaway_delay_s";
  private static final String PEAK = "peak_current_ratio";
  private static final String I2T = "i2t_ratio_s";
  private static final String RUN = "run_current_A";
  private static final String DIP = "voltage_dip_pct";
  private static final String BEFORE = "voltage_before_V";
  private static final String STOP = "stop_time_s";
  private static final String UNBALANCE = "current_unbalance_pct";
  private static final String NEGATIVE = "negative_sequence_pct";

  /** In the order in which they are offered where the figures speak as well for several. */
  static final List<Pattern> ALL =
      List.of(
          new Pattern(
              "supply",
              "the supply: a transformer tap or feeder, loose or warm joints, other loads on the"
                  + " same bus",
              List.of(rises(DIP), rises(Shift.DIP_PER_CURRENT)),
              List.of(stays(PEAK), stays(STOP), stays(UNBALANCE), mayFall(BEFORE))),
          new Pattern(
              "inertia",
              "turning masses: build-up on impeller or rotor, a heavier wheel, pulley or coupling",
              List.of(rises(START), rises(STOP)),
              List.of(stays(RUN), stays(UNBALANCE))),
          new Pattern(
              "load torque",
              "what the machine drives: more torque wanted at speed (valve or damper position,"
                  + " denser or more material, rubbing, tight belt)",
              List.of(rises(START), rises(RUN)),
              List.of(mayFall(STOP), stays(BREAKAWAY), stays(UNBALANCE))),
          new Pattern(
              "friction",
              "friction: bearings, seals, packing, a brake that drags",
              List.of(rises(START), falls(STOP), rises(RUN)),
              List.of(rises(BREAKAWAY), stays(UNBALANCE))),
          new Pattern(
              "breakaway",
              "what holds the shaft at rest: bearing, seal or packing, belt, material settled in the"
                  + " machine, a load that is not relieved",
              List.of(rises(BREAKAWAY)),
              List.of(stays(RUN), mayRise(START), doesNotRise(STOP), stays(UNBALANCE))),
          new Pattern(
              "load lost",
              "the connection to the load and the load itself: coupling, belt, a pump that runs dry"
                  + " or against a closed valve, worn impeller",
              List.of(falls(START), falls(RUN)),
              List.of(rises(STOP), stays(UNBALANCE))),
          new Pattern(
              "less current",
              "the starter: its current limit as entered, its current measuring, its firing",
              List.of(falls(PEAK), rises(START)),
              List.of(falls(DIP), stays(Shift.DIP_PER_CURRENT), stays(RUN), stays(STOP))),
          new Pattern(
              "more current",
              "the starter: its current limit or torque setting as entered, its current measuring",
              List.of(rises(PEAK), falls(START)),
              List.of(rises(DIP), stays(Shift.DIP_PER_CURRENT), stays(RUN), stays(STOP))),
          new Pattern(
              "rotor",
              "the motor's rotor: its resistance (bars, rings, how warm it starts)",
              List.of(falls(PEAK), falls(I2T)),
              List.of(falls(START), stays(Shift.DIP_PER_CURRENT), stays(RUN), stays(STOP))),
          new Pattern(
              "one phase",
              "one phase: contacts, joints, a fuse, firing of one thyristor pair, unequal supply"
                  + " voltages, a winding",
              List.of(rises(UNBALANCE)),
              List.of(rises(NEGATIVE), stays(START), stays(STOP))),
          new Pattern(
              "shorter stop",
              "friction or a load that falls away faster: bearings, seals, a valve that closes late,"
                  + " the soft stop's settings as entered",
              List.of(falls(STOP)),
              List.of(mayRise(RUN), stays(BREAKAWAY), stays(START))));
}
