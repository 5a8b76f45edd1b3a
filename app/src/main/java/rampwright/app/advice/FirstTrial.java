package rampwright.app.advice;

import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.FigureKey;

/** Where a search begins, and how far it goes, while nothing but the plate speaks. */
final class FirstTrial {
  // The first trial of all goes no further; common practice, no source.
  private static final double FIRST_LIMIT = 4.0;
  private static final double FIRST_TORQUE_PCT = 40;
  private static final double FIRST_VOLTAGE_PCT = 50;

  private FirstTrial() {}

  /** Common settings for a start that nobody has seen; a led stop where a limit asks for one. */
  static StarterSettings settings(AdviceRequest request) {
    boolean soft = false;
    for (FigureLimit limit : request.limits()) {
      RunFigure figure = limit.figure();
      soft = soft || (figure != null && figure.ofStop());
    }
    for (Corridor corridor : request.corridors()) {
      soft = soft || corridor.part() == FigureKey.Part.STOP;
    }
    return request
        .ranges()
        .nearest(
            new StarterSettings(
                3.5,
                ControlMode.TORQUE_RAMP,
                10,
                20,
                40,
                0,
                0,
                soft ? StopMode.SOFT : StopMode.COAST,
                10,
                10));
  }

  /** Ranges for a first trial. */
  static SettingRanges careful(SettingRanges ranges) {
    return ranges
        .capped(Setting.CURRENT_LIMIT, FIRST_LIMIT)
        .capped(Setting.INITIAL_TORQUE, FIRST_TORQUE_PCT)
        .capped(Setting.INITIAL_VOLTAGE, FIRST_VOLTAGE_PCT);
  }
}
