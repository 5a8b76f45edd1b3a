package rampwright.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import org.jspecify.annotations.Nullable;
import rampwright.app.heat.HeatBook;
import rampwright.app.usecase.UpClock;

/**
 * The computer's clock, and how long the computer has been on where its system tells it as Linux
 * does: {@code /proc/uptime} counts sleep and is moved by nobody, {@code boot_id} is new each time
 * the computer is switched on.
 */
final class MachineClock implements UpClock {
  private final InstantSource clock;
  private final Path system;

  MachineClock(InstantSource clock, Path system) {
    this.clock = clock;
    this.system = system;
  }

  @Override
  public Instant instant() {
    return clock.instant();
  }

  @Override
  public HeatBook.@Nullable UpTime up() {
    try {
      String boot = Files.readString(system.resolve("sys/kernel/random/boot_id")).strip();
      String seconds = Files.readString(system.resolve("uptime")).strip().split(" ", 2)[0];
      return new HeatBook.UpTime(boot, Double.parseDouble(seconds));
    } catch (IOException | NumberFormatException e) {
      return null;
    }
  }
}
