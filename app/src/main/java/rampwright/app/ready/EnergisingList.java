package rampwright.app.ready;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The checks before energising, and who ticked them when.
 *
 * @param ticks what was ticked, in the order it was done; a later tick of a number counts
 */
public record EnergisingList(List<Tick> ticks) {
  /** Nothing ticked. */
  public static final EnergisingList EMPTY = new EnergisingList(List.of());

  /** What stands at the head of the list, every time it is shown. */
  public static final List<String> CAUTIONS =
      List.of(
          "Electricity and moving machines kill. Only people who are trained and authorised do this"
              + " work, under the site's permit, with local codes and licensed practice before"
              + " anything written here.",
          "A semiconductor starter that is off does not isolate: its terminals are live until the"
              + " isolator is open, locked, and every conductor proved dead.",
          "The makers' instructions for motor, starter and driven machine come first. A tick here is a"
              + " person's word, not a proof, and this program is no protective device.");

  /**
   * One check.
   *
   * @param number what it is ticked by
   * @param about what it belongs to
   * @param text what to look at
   */
  public record Item(int number, String about, String text) {}

  /**
   * One tick.
   *
   * @param number of the check
   * @param text the check's words when it was ticked
   * @param by who
   * @param at when
   * @param note anything to add; null for nothing
   * @param taken whether the tick was taken back
   */
  public record Tick(
      int number, String text, String by, Instant at, @Nullable String note, boolean taken) {}

  private static final String[][] CHECKS = {
    {
      "isolation",
      "Everything that can feed the circuit is open, locked and tagged: main, control, heaters, a second supply; proved dead before hands go in, the tester proved before and after"
    },
    {
      "people",
      "Whoever works on the driven machine knows of the start, is clear of it, and cannot be reached by it; nobody can start it from elsewhere"
    },
    {
      "mounting",
      "Motor and starter are fixed; the starter stands upright with the maker's free space above and below; its cooling air comes in cool and gets out"
    },
    {
      "mounting",
      "Coupling or belt is fitted, aligned and guarded; the shaft turns by hand where that can be done safely"
    },
    {
      "power wiring",
      "Line side to line side, motor side to motor side; cross-sections and lugs as designed; every terminal drawn to its torque; nothing left lying inside"
    },
    {
      "power wiring",
      "Motor links for star or delta as its plate asks for this supply; inside the delta: each pair of ends belongs to one winding and to its own phase"
    },
    {
      "power wiring",
      "Nothing that stores energy hangs between starter and motor: power-factor capacitors and surge arresters are on the line side or out of circuit while it ramps"
    },
    {"power wiring", "By-pass closes onto the same phases it bridges, in the same order"},
    {
      "control wiring",
      "Control voltage is the one on the starter's plate; start, stop, reset and fault contacts go where the drawing says; emergency stop was tried dead and works without the starter's help"
    },
    {
      "control wiring",
      "Thermal sensors of the motor and interlocks of the driven machine are connected and stop a start; nothing is bridged for the test without a note here"
    },
    {
      "short-circuit protection",
      "Fuses or breaker are those the starter's maker names for its coordination type and the supply's fault level; fuses are whole and of one kind in all three phases"
    },
    {
      "overload protection",
      "The overload relay is set to the motor's plate current, or to it over 1.73 inside the delta, with the class that ready was asked about"
    },
    {
      "earthing",
      "Frames of motor, starter and driven machine and the cable screens are earthed, and it was measured"
    },
    {
      "insulation",
      "Insulation of motor and cables was measured with the starter disconnected, and the value noted; the starter itself was not put under test voltage"
    },
    {
      "rotation",
      "The driven machine's sense of turning is known and marked; a wrong one would do no harm in a short bump, or the coupling is open for it; the shaft is not turning backwards now"
    },
    {
      "driven machine",
      "The machine is ready to run: valves and dampers as for a start, primed, lubricated, cooled, empty or loaded as the trial asks"
    },
    {
      "measuring",
      "Current transformers are closed through their burdens; probes and instruments are rated for this panel; clamps sit on the right conductors, pointing one way"
    },
    {
      "settings",
      "What is set on the starter was read back from it and is what settings.toml of the trial says"
    },
    {
      "covers",
      "Covers and doors are shut, or the arc-flash study allows what stays open and everyone wears what it asks for"
    },
    {"rest", "The heat account allows the start, or the reason for not waiting is written down"}
  };

  public EnergisingList {
    ticks = List.copyOf(ticks);
  }

  /** The checks, in the order to do them. */
  public List<Item> items() {
    List<Item> items = new ArrayList<>();
    for (int k = 0; k < CHECKS.length; k++) {
      items.add(new Item(k + 1, CHECKS[k][0], CHECKS[k][1]));
    }
    return items;
  }

  /** The tick of a check that counts; null when it is open. */
  public @Nullable Tick tick(int number) {
    Tick last = last(number);
    return last == null || last.taken() ? null : last;
  }

  /** The last that was done about a check, a tick taken back too; null when nothing was. */
  public @Nullable Tick last(int number) {
    Tick found = null;
    for (Tick tick : ticks) {
      found = tick.number() == number ? tick : found;
    }
    return found;
  }

  /** How many checks are open. */
  public long open() {
    return items().stream().filter(item -> tick(item.number()) == null).count();
  }

  /** The same with one more tick. */
  public EnergisingList with(Tick tick) {
    List<Tick> more = new ArrayList<>(ticks);
    more.add(tick);
    return new EnergisingList(more);
  }
}
