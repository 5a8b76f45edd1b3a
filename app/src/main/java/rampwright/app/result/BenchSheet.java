package rampwright.app.result;

import java.nio.file.Path;
import java.util.List;

/**
 * Where a bench is found.
 *
 * @param asset name of the asset that is played
 * @param tcpPort port of 127.0.0.1
 * @param unit Modbus unit id
 * @param settings where the first settings come from
 * @param maps the channel maps that were written, that of TCP first
 * @param currentA amperes a digit of the scaled currents
 * @param voltageV volts a digit of the scaled voltages
 * @param speedRpm 1/min a digit of the scaled speed
 */
public record BenchSheet(
    String asset,
    int tcpPort,
    int unit,
    Path settings,
    List<Path> maps,
    double currentA,
    double voltageV,
    double speedRpm) {
  /** The bench listens on the loopback only. */
  public static final String HOST = "127.0.0.1";

  public BenchSheet {
    maps = List.copyOf(maps);
  }
}
