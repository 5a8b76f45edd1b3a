package rampwright.analysis.fit;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.Pipe;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.Wiring;

/**
 * What is known of an asset before any trial.
 *
 * @param plate motor nameplate
 * @param loadKind shape of the load's torque
 * @param loadInertiaKgM2 referred to the motor shaft
 * @param loadPowerW at rated speed
 * @param breakawayTorquePct of rated motor torque
 * @param supplyVoltageV declared supply voltage, line to line
 * @param supplyImpedanceOhm magnitude of the impedance between a stiff source and where voltages
 *     are measured, from a fault level or transformer
 * @param wiring where the starter sits, and where its trials' currents are measured
 * @param pipe what a pump feeds, for surge; null when not known
 * @param cable from where voltages are measured to the starter; {@link Supply#NONE} where they are
 *     measured at the starter
 */
public record AssetData(
    Nameplate plate,
    LoadKind loadKind,
    @Nullable Double loadInertiaKgM2,
    @Nullable Double loadPowerW,
    @Nullable Double breakawayTorquePct,
    double supplyVoltageV,
    @Nullable Double supplyImpedanceOhm,
    Wiring wiring,
    @Nullable Pipe pipe,
    Supply cable) {

  /** An asset without a pipe, voltages measured at the starter. */
  public AssetData(
      Nameplate plate,
      LoadKind loadKind,
      @Nullable Double loadInertiaKgM2,
      @Nullable Double loadPowerW,
      @Nullable Double breakawayTorquePct,
      double supplyVoltageV,
      @Nullable Double supplyImpedanceOhm,
      Wiring wiring) {
    this(
        plate,
        loadKind,
        loadInertiaKgM2,
        loadPowerW,
        breakawayTorquePct,
        supplyVoltageV,
        supplyImpedanceOhm,
        wiring,
        null,
        Supply.NONE);
  }

  /** Rated current where currents are measured, A RMS: of the line, or of a winding in a delta. */
  public double measuredRatedCurrentA() {
    return plate.ratedCurrentA() * wiring.measuredShare();
  }

  public AssetData {
    if (!(supplyVoltageV > 0)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT, "asset: supply voltage %s V must be above zero", supplyVoltageV));
    }
  }
}
