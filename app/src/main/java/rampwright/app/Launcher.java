package rampwright.app;

import java.io.BufferedWriter;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import rampwright.app.cli.Screen;
import rampwright.app.cli.Services;
import rampwright.app.cli.Terminal;

/** Starts the program. */
public final class Launcher {
  private Launcher() {}

  public static void main(String[] args) {
    // Libraries that look for a log sink must not talk about finding none.
    System.setProperty("slf4j.internal.verbosity", "ERROR");
    // Whoever reads the results reads UTF-8, whatever the machine's own encoding.
    Screen screen =
        new Screen(writer(FileDescriptor.out), writer(FileDescriptor.err), isWatched(), width());
    System.exit(new Terminal(screen, services()).run(args));
  }

  /** Whether a person watches: input and output are a terminal. */
  @SuppressWarnings("SystemConsoleNull") // the property restores the meaning null had before JDK 22
  private static boolean isWatched() {
    System.setProperty("jdk.console", "java.base");
    return System.console() != null;
  }

  /** The screen's columns where the shell says so, else the usual ones. */
  private static int width() {
    String columns = System.getenv("COLUMNS");
    try {
      return columns == null ? Screen.USUAL_WIDTH : Integer.parseInt(columns.strip());
    } catch (NumberFormatException notANumber) {
      return Screen.USUAL_WIDTH;
    }
  }

  private static Services services() {
    String version = Launcher.class.getPackage().getImplementationVersion();
    return new Services(
        Wiring.traceFiles(),
        Wiring.analyzer(),
        Wiring.charts(),
        Wiring.predictions(),
        Wiring.heat(),
        Wiring.readiness(),
        new BundledSamples("/sample-traces"),
        version == null ? "unreleased" : version,
        Runtime.getRuntime().availableProcessors(),
        new MachineClock(InstantSource.system(), Path.of("/proc")),
        System::getenv,
        Wiring.devices(Wiring.timekeeper(System::nanoTime, Instant::now)));
  }

  private static Writer writer(FileDescriptor to) {
    return new BufferedWriter(
        new OutputStreamWriter(new FileOutputStream(to), StandardCharsets.UTF_8));
  }
}
