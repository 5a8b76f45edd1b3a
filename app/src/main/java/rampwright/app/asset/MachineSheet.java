package rampwright.app.asset;

import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.PipeHead;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.SupplyPath;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.analysis.machine.Wiring;

/** An asset's sheet and a trial's settings as the machine model takes them. */
public final class MachineSheet {
  private static final double VOLT_AMPERES_PER_MVA = 1e6;
  private static final double UNSET_RELEASE_PCT = 10;
  private static final double UNSET_RAMP_DOWN_S = 10;

  /**
   * Locked-rotor current, of rated, of a plate that makes no machine: common practice, no source.
   */
  private static final double USUAL_LOCKED_RATIO = 7;

  private MachineSheet() {}

  /**
   * The asset for a fit.
   *
   * @throws IllegalArgumentException when the nameplate makes no machine; the message says why
   */
  public static AssetData data(Asset asset) {
    Motor m = asset.motor();
    Nameplate plate =
        new Nameplate(
            1000 * m.ratedPowerKw(),
            m.ratedVoltageV(),
            m.ratedCurrentA(),
            m.ratedFrequencyHz(),
            m.ratedSpeedRpm(),
            m.powerFactor(),
            m.efficiencyPct() / 100,
            m.lockedRotorCurrentRatio(),
            m.lockedRotorTorqueRatio(),
            m.breakdownTorqueRatio(),
            m.inertiaKgM2());
    Load load = asset.load();
    Supply supply = asset.supply();
    Starter starter = asset.starter();
    Double loadKw = load == null ? null : load.powerKw();
    return new AssetData(
        plate,
        load == null ? LoadKind.QUADRATIC : kind(load.kind()),
        load == null ? null : load.inertiaKgM2(),
        loadKw == null ? null : Double.valueOf(1000 * loadKw),
        load == null ? null : load.breakawayTorquePct(),
        supply == null ? m.ratedVoltageV() : supply.voltageV(),
        supply == null ? null : impedanceOhm(supply),
        wiring(starter),
        pipe(asset.pipe()),
        supply == null ? rampwright.analysis.machine.Supply.NONE : supply.cableBehindMeter());
  }

  /** Where the starter sits and its currents are measured; in line where the sheet has none. */
  private static Wiring wiring(@Nullable Starter starter) {
    if (starter == null || starter.wiring() == Starter.Wiring.IN_LINE) {
      return Wiring.IN_LINE;
    }
    return starter.measured() == Starter.Wiring.INSIDE_DELTA
        ? Wiring.DELTA_SEEN_INSIDE
        : Wiring.DELTA_SEEN_IN_LINE;
  }

  /**
   * Of a measured current over rated: squared winding current that was not measured over the
   * measured square ({@link Wiring#unseenShare}).
   */
  public static DoubleUnaryOperator unseenShare(Asset asset) {
    Wiring wiring = wiring(asset.starter());
    double locked = wiring == Wiring.DELTA_SEEN_IN_LINE ? lockedRatio(asset) : 1;
    return ratio -> wiring.unseenShare(ratio, locked);
  }

  /**
   * RMS current of rated where it is measured, while the starter holds its poles at one of rated.
   */
  public static double measuredRatio(Asset asset, double poleRatio) {
    Wiring wiring = wiring(asset.starter());
    return wiring == Wiring.DELTA_SEEN_IN_LINE
        ? wiring.measuredRatio(poleRatio, lockedRatio(asset))
        : poleRatio;
  }

  private static double lockedRatio(Asset asset) {
    Double given = asset.motor().lockedRotorCurrentRatio();
    if (given != null) {
      return given;
    }
    try {
      return TypicalMotor.of(data(asset).plate()).currentRatio();
    } catch (IllegalArgumentException notAMachine) {
      return USUAL_LOCKED_RATIO;
    }
  }

  /** The pipe for surge; without a flow velocity nothing can be said of it. */
  private static rampwright.analysis.machine.@Nullable Pipe pipe(@Nullable Pipe pipe) {
    Double velocity = pipe == null ? null : pipe.velocityMPerS();
    return pipe == null || velocity == null
        ? null
        : new rampwright.analysis.machine.Pipe(
            pipe.lengthM(), pipe.waveSpeedMPerS(), velocity, head(pipe));
  }

  /** Both heads are needed; a level below the pump's helps it and lifts nothing. */
  private static @Nullable PipeHead head(Pipe pipe) {
    Double lift = pipe.staticHeadM();
    Double total = pipe.totalHeadM();
    return lift == null || total == null || lift > total
        ? null
        : new PipeHead(Math.max(0, lift), total);
  }

  private static LoadKind kind(Load.Kind kind) {
    return switch (kind) {
      case QUADRATIC -> LoadKind.QUADRATIC;
      case CONSTANT -> LoadKind.CONSTANT;
      case LINEAR -> LoadKind.LINEAR;
      case RECIPROCATING -> LoadKind.RECIPROCATING;
    };
  }

  /**
   * Magnitude of the impedance a phase before the place where voltages are measured, ohm: that of
   * the source, with a cable in series the one of the usual angle that drops as much of a starting
   * current.
   */
  static @Nullable Double impedanceOhm(Supply supply) {
    SupplyPath path = path(supply);
    if (path != null && supply.measured() == Supply.Place.STARTER) {
      return path.likeImpedanceOhm();
    }
    rampwright.analysis.machine.Supply source = source(supply);
    return source == null
        ? null
        : Double.valueOf(Math.hypot(source.resistanceOhm(), source.reactanceOhm()));
  }

  /** Whether voltages are measured at the busbar, with a cable from there to the starter. */
  public static boolean measuresAtBusbar(Asset asset) {
    Supply supply = asset.supply();
    return supply != null
        && !supply.cableBehindMeter().equals(rampwright.analysis.machine.Supply.NONE);
  }

  /** Source and cable of an asset's supply; null unless the sheet has both. */
  public static @Nullable SupplyPath path(Asset asset) {
    Supply supply = asset.supply();
    return supply == null ? null : path(supply);
  }

  private static @Nullable SupplyPath path(Supply supply) {
    rampwright.analysis.machine.Supply source = source(supply);
    rampwright.analysis.machine.Supply cable = supply.cable();
    return source == null || cable == null ? null : new SupplyPath(source, cable);
  }

  /**
   * Up to where the cable begins: V^2 / S of the fault level, or the transformer's z V^2 / S,
   * nearly all of it reactance.
   */
  private static rampwright.analysis.machine.@Nullable Supply source(Supply supply) {
    double volts = supply.voltageV();
    Double faultMva = supply.faultLevelMva();
    if (faultMva != null) {
      return rampwright.analysis.machine.Supply.ofFaultLevel(
          volts,
          faultMva * VOLT_AMPERES_PER_MVA,
          rampwright.analysis.machine.Supply.USUAL_X_OVER_R);
    }
    Double kva = supply.transformerKva();
    Double pct = supply.transformerImpedancePct();
    return kva == null || pct == null
        ? null
        : new rampwright.analysis.machine.Supply(0, pct / 100 * volts * volts / (1000 * kva));
  }

  /** Settings for the model; null when what leads the ramp was not noted. */
  public static @Nullable StarterSettings settings(TrialSettings noted, Asset asset) {
    Double limit = noted.limitOverMotor(asset.motor(), asset.starter());
    Double rampUpS = noted.rampUpS();
    TrialSettings.Control control = noted.control();
    if (limit == null || rampUpS == null || control == null) {
      return null;
    }
    boolean torque = control == TrialSettings.Control.TORQUE_RAMP;
    Double torquePct = noted.initialTorquePct();
    Double voltagePct = noted.initialVoltagePct();
    if ((torque ? torquePct : voltagePct) == null) {
      return null;
    }
    return new StarterSettings(
        limit,
        torque ? ControlMode.TORQUE_RAMP : ControlMode.VOLTAGE_RAMP,
        rampUpS,
        or(torquePct, 0),
        or(voltagePct, 0),
        or(noted.pulseVoltagePct(), 0),
        or(noted.pulseS(), 0),
        noted.stop() == TrialSettings.Stop.SOFT ? StopMode.SOFT : StopMode.COAST,
        or(noted.releaseTorquePct(), UNSET_RELEASE_PCT),
        or(noted.rampDownS(), UNSET_RAMP_DOWN_S));
  }

  private static double or(@Nullable Double value, double otherwise) {
    return value == null ? otherwise : value;
  }
}
