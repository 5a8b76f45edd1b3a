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
import rampwright.app.usecase.UpClock;

/** Starts the program. */
public final class Launcher {
  private Launcher() {}

  public static void main(String[] args) {
    Relaunch.run(args).ifPresent(System::exit);
    // Libraries that look for a log sink must not talk about finding none.
    System.setProperty("slf4j.internal.verbosity", "ERROR");
    // Whoever reads the results reads UTF-8, whatever the machine's own encoding.
    boolean watched = isWatched();
    Screen screen =
        new Screen(
            writer(FileDescriptor.out),
            writer(FileDescriptor.err),
            watched,
            Screen.columns(System.getenv("COLUMNS"), watched));
    System.exit(new Terminal(screen, services()).run(args));
  }

  /** Whether a person watches: input and output are a terminal. */
  @SuppressWarnings("SystemConsoleNull") // the property restores the meaning null had before JDK 22
  private static boolean isWatched() {
    System.setProperty("jdk.console", "java.base");
    return System.console() != null;
  }

  private static Services services() {
    String built = Launcher.class.getPackage().getImplementationVersion();
    String version = built == null ? "unreleased" : built;
    UpClock clock = new MachineClock(InstantSource.system(), Path.of("/proc"));
    return new Services(
        Wiring.traceFiles(),
        Wiring.analyzer(),
        Wiring.charts(),
        Wiring.predictions(),
        Wiring.heat(),
        Wiring.readiness(),
        new BundledSamples("/sample-traces"),
        version,
        Runtime.getRuntime().availableProcessors(),
        clock,
        System::getenv,
        Wiring.devices(
            Wiring.timekeeper(System::nanoTime, Instant::now), Wiring.permit(version, clock)));
  }

  private static Writer writer(FileDescriptor to) {
    return new BufferedWriter(
        new OutputStreamWriter(new FileOutputStream(to), StandardCharsets.UTF_8));
  }
}
