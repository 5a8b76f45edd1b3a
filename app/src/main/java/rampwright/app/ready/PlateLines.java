package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.HOLD;
import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.CodeLetter;
import rampwright.analysis.machine.DesignN;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.app.asset.Asset;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.Motor;

/** Whether the nameplate agrees with itself and with what its kind of motor does. */
final class PlateLines {
  // Plates round to two or three digits; a tenth off is more than rounding. A quarter is a wrong
  // number. Common practice, no source.
  private static final double ODD = 0.10;
  private static final double WRONG = 0.25;

  private static final double USUAL_SLIP = 0.05;
  private static final double LARGEST_SLIP = 0.13;
  private static final double WATTS_PER_HP = 745.69987;

  private PlateLines() {}

  static void add(Asset asset, List<ReadyLine> lines) {
    Motor motor = asset.motor();
    Nameplate plate = MachineSheet.data(asset).plate();
    lines.add(current(motor));
    lines.add(slip(plate));
    lines.add(lockedCurrent(motor, plate));
    lines.add(lockedTorque(motor, plate));
    lines.add(breakdown(motor, plate));
    lines.add(lockedTimes(motor));
  }

  private static ReadyLine current(Motor m) {
    double expectedA =
        1000
            * m.ratedPowerKw()
            / (Math.sqrt(3) * m.ratedVoltageV() * m.powerFactor() * m.efficiencyPct() / 100);
    double off = Math.abs(m.ratedCurrentA() / expectedA - 1);
    return ReadyLine.of(
        "nameplate current",
        off <= ODD ? OK : off <= WRONG ? LOOK : HOLD,
        "I = P / (sqrt(3) U pf eff); within 10 % of the plate (common practice, no source)",
        text(
            "%s kW, %s V, power factor %s and %s %% take %s A; the plate says %s A (%s %% off)%s",
            m.ratedPowerKw(),
            m.ratedVoltageV(),
            m.powerFactor(),
            m.efficiencyPct(),
            expectedA,
            m.ratedCurrentA(),
            100 * off,
            off <= ODD ? "" : "; check star or delta, power factor, efficiency"));
  }

  private static ReadyLine slip(Nameplate plate) {
    double slip = plate.ratedSlip();
    return ReadyLine.of(
        "slip and poles",
        slip <= USUAL_SLIP ? OK : slip <= LARGEST_SLIP ? LOOK : HOLD,
        "n = 60 f / p; slip 0.5 to 5 % usual (NEMA MG 10, table 2-1, design B), to 13 % high-slip",
        text(
            "%s rpm at %s Hz: %d poles, slip %s %% of %s rpm",
            plate.ratedSpeedRpm(),
            plate.ratedFrequencyHz(),
            2 * plate.polePairs(),
            100 * slip,
            plate.syncSpeedRpm()));
  }

  private static ReadyLine lockedCurrent(Motor m, Nameplate plate) {
    Double given = m.lockedRotorCurrentRatio();
    double ratio = given != null ? given : TypicalMotor.of(plate).currentRatio();
    double kva = ratio * plate.ratedApparentPowerVa() / 1000;
    double perKw = kva / m.ratedPowerKw();
    double limit = DesignN.lockedKvaPerKw(m.ratedPowerKw());
    boolean high = perKw > limit * (1 + DesignN.CURRENT_TOLERANCE);
    boolean low = ratio < 3.5;
    return ReadyLine.of(
        "locked-rotor current",
        given == null || high || low ? LOOK : OK,
        "IEC 60034-12 design N, most kVA per kW (+20 % of IEC 60034-1), from memory; code letter NEMA"
            + " MG 1, 10.37",
        text(
            "%s%s x rated, %s A: %s kVA per kW (design N at most %s), code letter %s%s",
            given == null ? "not given, taken as " : "",
            ratio,
            ratio * m.ratedCurrentA(),
            perKw,
            limit,
            String.valueOf(
                CodeLetter.of(kva * 1000 / (m.ratedPowerKw() * 1000) * WATTS_PER_HP / 1000)),
            given == null
                ? "; give locked_rotor_current_ratio"
                : high
                    ? "; above the design's limit: a high-efficiency motor, or a slip of the pen"
                    : low ? "; unusually low: check it" : ""));
  }

  private static ReadyLine lockedTorque(Motor m, Nameplate plate) {
    double least = DesignN.lockedTorque(m.ratedPowerKw(), plate.polePairs());
    return torque(
        "locked-rotor torque",
        "locked_rotor_torque_ratio",
        m.lockedRotorTorqueRatio(),
        TypicalMotor.of(plate).torqueRatio(),
        least,
        DesignN.TORQUE_TOLERANCE,
        4);
  }

  private static ReadyLine breakdown(Motor m, Nameplate plate) {
    double least = DesignN.breakdownTorque(m.ratedPowerKw(), plate.polePairs());
    return torque(
        "breakdown torque",
        "breakdown_torque_ratio",
        m.breakdownTorqueRatio(),
        TypicalMotor.of(plate).breakdownRatio(),
        least,
        DesignN.BREAKDOWN_TOLERANCE,
        4.5);
  }

  private static ReadyLine torque(
      String check,
      String key,
      @Nullable Double given,
      double typical,
      double least,
      double tolerance,
      double most) {
    double ratio = given != null ? given : typical;
    boolean odd = given != null && (given < least * (1 - tolerance) || given > most);
    return ReadyLine.of(
        check,
        given == null || odd ? LOOK : OK,
        text(
            "IEC 60034-12 design N, least value (-%s %% of IEC 60034-1), from memory",
            100 * tolerance),
        given == null
            ? text("not given, taken as %s x rated; give %s", ratio, key)
            : text(
                "%s x rated; design N has at least %s%s",
                ratio, least, odd ? ": outside what is usual, check it" : ""));
  }

  private static ReadyLine lockedTimes(Motor m) {
    Double hot = m.lockedRotorTimeHotS();
    Double cold = m.lockedRotorTimeColdS();
    boolean swapped = hot != null && cold != null && hot > cold;
    return ReadyLine.of(
        "locked-rotor times",
        swapped ? HOLD : hot == null || cold == null ? LOOK : OK,
        "maker's data; 12 s hot to 500 hp and 1 kV where silent (NEMA MG 1, 12.49, from memory)",
        swapped
            ? text("hot %s s is above cold %s s: are they swapped?", hot, cold)
            : hot == null && cold == null
                ? "neither given: the heat account takes the least usual; ask the maker"
                : text(
                    "hot %s s, cold %s s%s",
                    hot == null ? "not given" : hot,
                    cold == null ? "not given" : cold,
                    hot == null || cold == null ? ": the missing one is taken cautiously" : ""));
  }
}
