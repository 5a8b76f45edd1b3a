package rampwright.app.advice;

import java.util.LinkedHashMap;
import java.util.Map;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.machine.MachineModel;

/** The main numbers of a fitted model, by names a person knows. */
final class ModelSummary {
  private ModelSummary() {}

  static Map<String, Double> of(FitResult fit, MachineModel best) {
    Map<String, Double> out = new LinkedHashMap<>();
    out.put("inertia_kgm2", best.inertiaKgM2());
    out.put("inertia_sigma_pct", 100 * fit.inertiaSigma());
    out.put("load_torque_pct", 100 * best.load().fullTorque());
    out.put("load_least_torque_pct", 100 * best.load().minimumTorque());
    out.put("breakaway_torque_pct", 100 * best.load().holding());
    out.put("supply_fault_level_MVA", best.supply().faultLevelVa(best.sourceVoltageV()) / 1e6);
    out.put("source_voltage_V", best.sourceVoltageV());
    out.put("locked_rotor_current_ratio", best.motor().admittance(1));
    out.put("locked_rotor_torque_ratio", best.motor().torque(1));
    out.put("breakdown_torque_ratio", best.motor().breakdownTorque());
    out.put("starter_torque_gain", best.starter().torqueGain());
    out.put("starter_torque_offset_pct", 100 * best.starter().torqueOffset());
    out.put("starter_limit_gain", best.starter().limitGain());
    return out;
  }
}
