package rampwright.app.heat;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.heat.HeatPiece;
import rampwright.analysis.heat.HeatPlan;
import rampwright.analysis.heat.MotorHeat;
import rampwright.analysis.heat.RatingIndex;
import rampwright.analysis.heat.StartRules;
import rampwright.analysis.heat.StarterDuty;
import rampwright.analysis.heat.TripClass;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Load;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.Motor;
import rampwright.app.asset.Starter;

/**
 * An asset's sheet as the heat account takes it.
 *
 * @param plan what the account is kept against
 * @param remarks what the sheet does not say and what was taken for it; one line each
 */
public record HeatSheet(HeatPlan plan, List<String> remarks) {
  public HeatSheet {
    remarks = List.copyOf(remarks);
  }

  /**
   * The sheet of an asset.
   *
   * @param expected pieces of the start to come, from a model; empty when nothing is predicted
   * @throws IllegalArgumentException when the nameplate makes no machine; the message says why
   */
  public static HeatSheet of(Asset asset, List<HeatPiece> expected) {
    AssetData data = MachineSheet.data(asset);
    Nameplate plate = data.plate();
    Motor motor = asset.motor();
    Load load = asset.load();
    MotorHeat heat =
        MotorHeat.of(
            new MotorHeat.Sheet(
                plate.ratedPowerW(),
                plate.ratedVoltageV(),
                TypicalMotor.of(plate).currentRatio(),
                motor.lockedRotorCurrentRatio(),
                motor.lockedRotorTimeColdS(),
                motor.lockedRotorTimeHotS(),
                motor.thermalTimeConstantMin(),
                motor.coolingTimeConstantMin()));
    List<String> remarks = new ArrayList<>(heat.assumed());
    StartRules rules =
        StartRules.of(
            motor.startsPerHour(),
            plate.ratedPowerW(),
            plate.polePairs(),
            load == null ? null : load.inertiaKgM2(),
            TypicalMotor.of(plate).inertiaKgM2(),
            load == null || load.kind() == Load.Kind.QUADRATIC);
    if (motor.startsPerHour() == null) {
      remarks.add("starts an hour not given: " + rules.source());
    }
    return new HeatSheet(
        new HeatPlan(heat, duty(asset, remarks), relay(asset.starter(), remarks), rules, expected),
        remarks);
  }

  private static StarterDuty duty(Asset asset, List<String> remarks) {
    Starter starter = asset.starter();
    if (starter == null) {
      remarks.add("no [starter] on the sheet: taken as one for three starts an hour");
      return new StarterDuty(null, 1);
    }
    double poleA = asset.motor().ratedCurrentA() / starter.lineOverStarter();
    RatingIndex index = null;
    String text = starter.ratingIndex();
    if (text == null) {
      remarks.add("starter rating_index not given: taken as one for three starts an hour");
    } else {
      try {
        index = RatingIndex.parse(text);
      } catch (IllegalArgumentException e) {
        remarks.add("starter " + e.getMessage() + "; taken as one for three starts an hour");
      }
    }
    return new StarterDuty(index, poleA / starter.ratedCurrentA());
  }

  private static @Nullable TripClass relay(@Nullable Starter starter, List<String> remarks) {
    String text = starter == null ? null : starter.tripClass();
    if (text == null) {
      return null;
    }
    TripClass found = TripClass.parse(text);
    if (found == null) {
      remarks.add(
          "starter trip_class \""
              + text
              + "\" is none of IEC 60947-4-1; expected 5, 10A, 10, 20, 30, 40, or one with E");
    }
    return found;
  }
}
