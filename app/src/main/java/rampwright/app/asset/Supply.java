package rampwright.app.asset;

import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;

/**
 * The supply at the starter. Its strength is given by a fault level or by the transformer that
 * feeds it, or not at all.
 *
 * @param voltageV declared voltage, line to line, V RMS
 * @param faultLevelMva three-phase short-circuit power
 * @param transformerKva rated power of the feeding transformer
 * @param transformerImpedancePct its short-circuit impedance, % of its rating
 * @param cableLengthM from where the fault level is given, or the transformer, to the starter
 * @param cableResistanceOhmPerKm of one core
 * @param cableReactanceOhmPerKm of one core
 * @param measured at which end of the cable the traces' voltages were taken
 */
public record Supply(
    double voltageV,
    @Nullable Double faultLevelMva,
    @Nullable Double transformerKva,
    @Nullable Double transformerImpedancePct,
    @Nullable Double cableLengthM,
    @Nullable Double cableResistanceOhmPerKm,
    @Nullable Double cableReactanceOhmPerKm,
    Place measured) {

  public static final NumberKey VOLTAGE_V =
      new NumberKey(
          "voltage_V", "V", 24, 36_000, "line to line", "a number in kV belongs times 1000");
  public static final NumberKey FAULT_LEVEL_MVA =
      new NumberKey(
          "fault_level_MVA",
          "MVA",
          0.05,
          50_000,
          "three-phase short-circuit power",
          "kVA belong divided by 1000");
  public static final NumberKey TRANSFORMER_KVA =
      new NumberKey(
          "transformer_kVA",
          "kVA",
          1,
          500_000,
          "the transformer's rating",
          "MVA belong times 1000");
  public static final NumberKey TRANSFORMER_IMPEDANCE_PCT =
      new NumberKey(
          "transformer_impedance_pct",
          "%",
          0.5,
          30,
          "short-circuit impedance",
          "a ratio belongs times 100");
  public static final NumberKey CABLE_LENGTH_M =
      new NumberKey(
          "cable_length_m",
          "m",
          0,
          50_000,
          "from the busbar (where the fault level holds, or the transformer) to the starter",
          "");
  public static final NumberKey CABLE_RESISTANCE =
      new NumberKey("cable_resistance_ohm_per_km", "ohm/km", 0.001, 50, "of one core", "");
  public static final NumberKey CABLE_REACTANCE =
      new NumberKey("cable_reactance_ohm_per_km", "ohm/km", 0.001, 5, "of one core", "");

  /** Reactance of a low-voltage cable, ohm/km, where none is given: common practice, no source. */
  private static final double USUAL_CABLE_OHM_PER_KM = 0.08;

  /** The cable between busbar and starter; null without one. */
  public rampwright.analysis.machine.@Nullable Supply cable() {
    Double lengthM = cableLengthM;
    Double ohmPerKm = cableResistanceOhmPerKm;
    if (lengthM == null || ohmPerKm == null || lengthM == 0) {
      return null;
    }
    double km = lengthM / 1000;
    double reactance =
        cableReactanceOhmPerKm == null ? USUAL_CABLE_OHM_PER_KM : cableReactanceOhmPerKm;
    return new rampwright.analysis.machine.Supply(km * ohmPerKm, km * reactance);
  }

  /** From where voltages are measured to the starter; none where they are measured there. */
  public rampwright.analysis.machine.Supply cableBehindMeter() {
    rampwright.analysis.machine.Supply cable = measured == Place.BUSBAR ? cable() : null;
    return cable == null ? rampwright.analysis.machine.Supply.NONE : cable;
  }

  /** An end of the cable between busbar and starter. */
  public enum Place {
    STARTER("starter"),
    BUSBAR("busbar");

    private final String key;

    Place(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  public Supply {
    VOLTAGE_V.checked(voltageV);
    FAULT_LEVEL_MVA.checkedOptional(faultLevelMva);
    TRANSFORMER_KVA.checkedOptional(transformerKva);
    TRANSFORMER_IMPEDANCE_PCT.checkedOptional(transformerImpedancePct);
    CABLE_LENGTH_M.checkedOptional(cableLengthM);
    CABLE_RESISTANCE.checkedOptional(cableResistanceOhmPerKm);
    CABLE_REACTANCE.checkedOptional(cableReactanceOhmPerKm);
  }
}
