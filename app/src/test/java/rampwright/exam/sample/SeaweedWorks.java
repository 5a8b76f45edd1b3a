package rampwright.exam.sample;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rampwright.exam.plant.AssetGenerator;
import rampwright.exam.plant.AssetSheet;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueMeter;
import rampwright.exam.wave.WavePlant;

/**
 * The invented scenario: a small works on an island that washes, dries and chops seaweed.
 *
 * <p>The shore side runs on the island's 50 Hz grid; the drying house stands alone on a second-hand
 * 60 Hz generating set, so that its big fan must not pull the voltage down. None of it exists.
 */
final class SeaweedWorks {
  static final long SEED = 2026;

  /** Copper at 85 degC over copper at 20 degC, 0.39 % a kelvin. */
  private static final double HOT_OVER_20_DEGC = 1.25;

  private SeaweedWorks() {}

  static List<SampleAsset> assets() {
    return List.of(pump(), fan(), conveyor());
  }

  private static SampleAsset pump() {
    PlantAsset plant = metered(new AssetGenerator(SEED).asset(6, "pump", 90, 50), 25, Double.NaN);
    Map<String, Limits.Limit> limits = new LinkedHashMap<>();
    limits.put("peak_current_ratio", new Limits.Limit(Double.NaN, 2.9));
    limits.put("start_time_s", new Limits.Limit(3, 6));
    limits.put("voltage_dip_pct", new Limits.Limit(Double.NaN, 6.5));
    limits.put("i2t_ratio_s", new Limits.Limit(Double.NaN, 30));
    limits.put("controlled_time_s", new Limits.Limit(8, 13));
    String envelope =
        limits(limits)
            + """

            [[envelope.corridor]]
            channel = "current_ratio"
            part = "start"
            upper = [[0, 3.0], [6, 3.0], [9, 1.4], [20, 1.2]]
            lower = []
            """;
    String extra =
        """

        [pipe]
        length_m = 420.0
        wave_speed_m_s = 1150.0
        velocity_m_s = 1.7
        static_head_m = 24.0
        check_valve = true
        """;
    String file =
        file(
            plant,
            new Words("BP-1", "Brine pump", "Shore side, seaweed works (invented)", 15, 35, 30, 90),
            "AC-53b: 3.5-30:330",
            "kind = \"quadratic\"\npower_kW = 64.0\nbreakaway_torque_pct = 20.0\n",
            extra + envelope);
    PlantSettings base = settings(true, true, 20, 40, 10, 3.5, 10, 10);
    return new SampleAsset(
        "brine-pump",
        plant,
        file,
        new Limits(limits),
        List.of(
            SampleTrial.rms(
                "20260309T081200Z",
                "first guess, stopped by coasting",
                base.withSoftStop(false),
                7),
            SampleTrial.rms(
                "20260309T085500Z",
                "ramp shortened, soft stop too short",
                base.with(Setting.RAMP_UP, 5).with(Setting.RAMP_DOWN, 4),
                6),
            SampleTrial.rms(
                    "20260309T094000Z",
                    "stopped by hand while speeding up",
                    base.with(Setting.RAMP_UP, 5).with(Setting.RAMP_DOWN, 13),
                    6)
                .aborted(2.1)
                .notRepresentative("stopped by hand: suction valve found shut"),
            SampleTrial.rms(
                "20260309T103000Z",
                "start and soft stop as wanted",
                base.with(Setting.RAMP_UP, 5).with(Setting.RAMP_DOWN, 13),
                8),
            SampleTrial.wave(
                "20260310T090500Z",
                "the same settings, waveform",
                base.with(Setting.RAMP_UP, 5).with(Setting.RAMP_DOWN, 13),
                WavePlant.Conduct.sound(2000, 21, 1.5),
                false,
                List.of())));
  }

  private static SampleAsset fan() {
    PlantAsset plant = metered(new AssetGenerator(SEED).asset(6, "fan", 400, 60), 20, 1);
    Map<String, Limits.Limit> limits = new LinkedHashMap<>();
    limits.put("peak_current_ratio", new Limits.Limit(Double.NaN, 3.4));
    limits.put("start_time_s", new Limits.Limit(12, 22));
    limits.put("voltage_dip_pct", new Limits.Limit(Double.NaN, 6.5));
    limits.put("i2t_ratio_s", new Limits.Limit(Double.NaN, 185));
    String envelope =
        limits(limits)
            + """

            [[envelope.corridor]]
            channel = "current_ratio"
            part = "start"
            upper = [[0, 3.5], [20, 3.5], [24, 1.3], [40, 1.2]]
            lower = []

            [[envelope.corridor]]
            channel = "speed_pct"
            part = "start"
            upper = []
            lower = [[8, 15], [14, 40], [22, 95]]
            """;
    String file =
        file(
            plant,
            new Words(
                "DF-1", "Drying fan", "Drying house, seaweed works (invented)", 20, 45, 40, 120),
            "AC-53b: 3.5-32:1200",
            "kind = \"quadratic\"\n"
                + loadInertia(plant)
                + "power_kW = 275.0\nbreakaway_torque_pct = 15.0\n",
            envelope);
    PlantSettings base = settings(false, false, 20, 40, 10, 3.5, 10, 10);
    return new SampleAsset(
        "drying-fan",
        plant,
        file,
        new Limits(limits),
        List.of(
            SampleTrial.rms(
                "20260316T071500Z",
                "limit too low: slow and too hot",
                base.with(Setting.CURRENT_LIMIT, 2.8).with(Setting.RAMP_UP, 25),
                8),
            SampleTrial.rms(
                "20260316T101000Z",
                "limit too high: voltage falls too far",
                base.with(Setting.CURRENT_LIMIT, 4.4),
                6),
            SampleTrial.rms(
                "20260317T071000Z", "as wanted", base.with(Setting.CURRENT_LIMIT, 3.3), 8),
            SampleTrial.rms(
                "20260318T070500Z",
                "as wanted, next day",
                base.with(Setting.CURRENT_LIMIT, 3.3),
                9),
            SampleTrial.wave(
                "20260318T131000Z",
                "the first seconds as a waveform; the record ends before full speed",
                base.with(Setting.CURRENT_LIMIT, 3.3),
                WavePlant.Conduct.sound(5000, 6, 9),
                true,
                List.of())));
  }

  private static SampleAsset conveyor() {
    PlantAsset plant = metered(new AssetGenerator(SEED).asset(6, "conveyor", 11, 50), 25, 0.1);
    Map<String, Limits.Limit> limits = new LinkedHashMap<>();
    limits.put("peak_current_ratio", new Limits.Limit(Double.NaN, 4.2));
    limits.put("start_time_s", new Limits.Limit(4, 10));
    limits.put("i2t_ratio_s", new Limits.Limit(Double.NaN, 80));
    limits.put("breakaway_delay_s", new Limits.Limit(Double.NaN, 1));
    limits.put("stop_time_s", new Limits.Limit(2.5, 5));
    String envelope =
        limits(limits)
            + """

            [[envelope.corridor]]
            channel = "speed_pct"
            part = "start"
            upper = [[0, 5], [1, 40], [4, 90]]
            lower = [[0.5, 0], [3, 3], [10, 95]]
            """;
    String file =
        file(
            plant,
            new Words(
                "WC-1", "Weed conveyor", "Shore side, seaweed works (invented)", 14, 30, 20, 50),
            "AC-53b: 4-20:280",
            "kind = \"constant\"\n"
                + loadInertia(plant)
                + "power_kW = 6.8\nbreakaway_torque_pct = 65.0\n",
            envelope);
    PlantSettings base = settings(true, true, 20, 40, 10, 3.5, 6, 10);
    PlantSettings good =
        settings(false, true, 20, 55, 8, 3.6, 6, 10)
            .with(Setting.PULSE, 0.3)
            .with(Setting.PULSE_VOLTAGE, 80);
    return new SampleAsset(
        "weed-conveyor",
        plant,
        file,
        new Limits(limits),
        List.of(
            SampleTrial.rms(
                "20260323T063000Z",
                "stalled: limit too low for a loaded belt",
                base.with(Setting.CURRENT_LIMIT, 2.2),
                6),
            SampleTrial.rms(
                "20260323T083000Z",
                "late breakaway",
                base.with(Setting.INITIAL_TORQUE, 10).with(Setting.RAMP_UP, 18),
                6),
            SampleTrial.rms("20260323T100000Z", "with a breakaway pulse, as wanted", good, 7),
            SampleTrial.rms("20260324T062500Z", "the belt was empty", good, 7)
                .load(0.55, 0.5)
                .notRepresentative("belt empty"),
            SampleTrial.wave(
                "20260324T090000Z",
                "waveform, one thyristor of phase 2 stops firing",
                good,
                WavePlant.Conduct.sound(5000, 6.5, 1).withDeadThyristor(1.4).withTimeLimit(4.5),
                true,
                List.of("thyristor of phase 2, current into the motor, from 1.4 s"))));
  }

  /** What the file says that the sheet does not: names, and how warm the motor may get. */
  private record Words(
      String id, String name, String site, int hotS, int coldS, int heatMin, int coolMin) {}

  private static String file(
      PlantAsset plant, Words words, String index, String load, String rest) {
    AssetSheet sheet = plant.sheet();
    String text = sheet.toToml(new Limits(Map.of()));
    text = text.replace("id = \"" + sheet.id() + "\"", "id = \"" + words.id() + "\"");
    text =
        text.replace(
            "name = \"" + sheet.id() + "\"",
            "name = \"" + words.name() + "\"\nsite = \"" + words.site() + "\"");
    String motor =
        String.format(
            Locale.ROOT,
            """
            locked_rotor_time_hot_s = %d.0
            locked_rotor_time_cold_s = %d.0
            thermal_time_constant_min = %d.0
            cooling_time_constant_min = %d.0
            starts_per_hour = 6
            winding_resistance_ohm = %.3g
            """,
            words.hotS(),
            words.coldS(),
            words.heatMin(),
            words.coolMin(),
            2 * plant.truth().machine().r1() / HOT_OVER_20_DEGC);
    text = text.replace("\n[starter]\n", motor + "\n[starter]\n");
    text =
        text.replace(
            "[starter.settings]",
            "rating_index = \""
                + index
                + "\"\ntrip_class = \"20\"\nwiring = \"in line\"\n"
                + "[starter.settings]");
    int at = text.indexOf("kind = \"" + sheet.loadKind() + "\"");
    int end = text.indexOf("\n[supply]");
    text = text.substring(0, at) + load + text.substring(end);
    text = text.substring(0, text.indexOf("\n[envelope]"));
    return "# invented, computed by rampwright.exam.sample.SampleTraces, seed "
        + SEED
        + "; no such plant exists\n"
        + text
        + rest;
  }

  private static String loadInertia(PlantAsset plant) {
    double known = plant.truth().load().inertiaKgM2() * 1.06;
    return String.format(Locale.ROOT, "inertia_kgm2 = %.3g%n", known).replace("\r", "");
  }

  private static String limits(Map<String, Limits.Limit> limits) {
    StringBuilder text = new StringBuilder("\n[envelope]\n");
    limits.forEach(
        (key, limit) -> {
          text.append(key).append(" = { ");
          if (!Double.isNaN(limit.min())) {
            text.append("min = ").append(limit.min()).append(", ");
          }
          text.append("max = ").append(limit.max()).append(" }\n");
        });
    return text.toString();
  }

  private static PlantSettings settings(
      boolean torqueRamp,
      boolean soft,
      double torquePct,
      double voltPct,
      double rampS,
      double limit,
      double downS,
      double releasePct) {
    return new PlantSettings(
        torqueRamp, soft, new double[] {torquePct, voltPct, rampS, limit, 0, 0, downS, releasePct});
  }

  private static PlantAsset metered(PlantAsset plant, double rateHz, double stepRpm) {
    TrueMeter meter = plant.meter();
    TrueMeter changed =
        new TrueMeter(
            rateHz,
            meter.gains(),
            meter.noise(),
            meter.floorA(),
            meter.stepA(),
            meter.stepV(),
            stepRpm,
            meter.jitter(),
            0.002);
    return new PlantAsset(plant.trade(), plant.truth(), plant.sheet(), changed, plant.seed());
  }
}
