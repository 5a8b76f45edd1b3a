package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.heat.HeatBook;

class MachineClockTest {
  private static final Instant NOW = Instant.parse("2026-03-14T09:00:00Z");

  @TempDir private Path system;

  private MachineClock clock(String boot, String uptime) throws IOException {
    Files.createDirectories(system.resolve("sys/kernel/random"));
    Files.writeString(system.resolve("sys/kernel/random/boot_id"), boot);
    Files.writeString(system.resolve("uptime"), uptime);
    return new MachineClock(() -> NOW, system);
  }

  /** The two files as proc(5) gives them: one id, and seconds up and idle. */
  @Test
  void theRunningTimeIsReadAsTheSystemGivesIt() throws IOException {
    MachineClock clock = clock("1b4e28ba-2fa1-11d2-883f-0016d3cca427\n", "350735.47 234388.90\n");
    assertThat(clock.instant()).isEqualTo(NOW);
    assertThat(clock.up())
        .isEqualTo(new HeatBook.UpTime("1b4e28ba-2fa1-11d2-883f-0016d3cca427", 350735.47));
  }

  @Test
  void whereItIsNotToldThereIsNone() throws IOException {
    assertThat(new MachineClock(() -> NOW, system).up()).isNull();
    assertThat(clock("x", "soon").up()).isNull();
  }
}
