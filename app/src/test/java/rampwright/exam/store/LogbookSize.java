package rampwright.exam.store;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.app.logbook.KeptEntry;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.PostgresServer;
import rampwright.app.usecase.AskTrend;
import rampwright.app.usecase.LogbookUse;

/**
 * How long a large logbook takes: fills one, then asks it. Arguments: where the logbook is to be (a
 * new file, or an address of an empty database), assets, starts of each, and optionally {@code
 * keep} to use one that is filled already.
 */
public final class LogbookSize {
  private static final int ASKED = 40;
  private static final OperatingSystemMXBean PROCESS =
      (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

  private LogbookSize() {}

  public static void main(String[] args) throws Exception {
    boolean embedded = args[0].equals("embedded");
    String where = embedded ? PostgresServer.database() : args[0];
    UnaryOperator<@Nullable String> environment =
        embedded ? PostgresServer::environment : System::getenv;
    int assets = Integer.parseInt(args[1]);
    int rounds = Integer.parseInt(args[2]);
    if (args.length < 4) {
      fill(where, environment, assets, rounds);
    }
    LogbookUse use = new LogbookUse(environment, Instant::now);
    Random chance = new Random(assets + rounds);
    int[] asked = new int[ASKED];
    for (int i = 0; i < ASKED; i++) {
      asked[i] = chance.nextInt(assets);
    }
    try (Logbook book = Logbook.open(where, environment, Instant::now)) {
      say("open and list %d assets", book.assets().size());
      report("list of assets", 3, i -> book.assets());
      report("newest 100 of one asset", ASKED, i -> newest(book, asked[i]));
      report("all starts of one asset", ASKED, i -> starts(book, asked[i]));
    }
    AskTrend ask = new AskTrend(use);
    report("one asset's trend, every figure", ASKED, i -> trend(ask, where, asked[i], List.of()));
    report(
        "one asset's trend, one figure",
        ASKED,
        i -> trend(ask, where, asked[i], List.of("start_time_s")));
    report(
        "fleet, start time",
        1,
        i -> ask.run(new AskTrend.Question(List.of(), List.of("start_time_s"), Map.of()), where));
    report(
        "fleet, every figure",
        1,
        i -> ask.run(new AskTrend.Question(List.of(), List.of(), Map.of()), where));
  }

  private static void fill(
      String where, UnaryOperator<@Nullable String> environment, int assets, int rounds)
      throws Exception {
    FleetOfStarts fleet = new FleetOfStarts(assets, 3);
    long began = System.nanoTime();
    try (Logbook book = Logbook.open(where, environment, Instant::now)) {
      List<LogEntry> batch = new ArrayList<>();
      for (int round = 0; round < rounds; round++) {
        batch.addAll(fleet.round(round));
        if (batch.size() >= 4000 || round == rounds - 1) {
          book.append(batch);
          batch.clear();
        }
      }
    }
    double tookS = (System.nanoTime() - began) / 1e9;
    long starts = (long) assets * rounds;
    say("filled: %d starts in %.1f s, %.0f a second", starts, tookS, starts / tookS);
    Path file = Path.of(where);
    if (!where.startsWith("postgresql") && Files.exists(file)) {
      say("size: %.0f MB, %d bytes a start", Files.size(file) / 1e6, Files.size(file) / starts);
    }
  }

  private static List<KeptEntry> newest(Logbook book, int asset) throws Exception {
    return book.newest(FleetOfStarts.asset(asset), 100);
  }

  private static List<LogEntry> starts(Logbook book, int asset) throws Exception {
    return book.starts(FleetOfStarts.asset(asset));
  }

  private static Object trend(AskTrend ask, String where, int asset, List<String> figures)
      throws Exception {
    return ask.run(
        new AskTrend.Question(List.of(FleetOfStarts.asset(asset)), figures, Map.of()), where);
  }

  /** Work for the k-th asset asked. */
  private interface Asked {
    Object run(int k) throws Exception;
  }

  private static void report(String name, int times, Asked work) throws Exception {
    double[] wallMs = new double[times];
    // the clock of processor time may tick in hundredths of a second: taken over all
    long cpu = PROCESS.getProcessCpuTime();
    for (int i = 0; i < times; i++) {
      long began = System.nanoTime();
      work.run(i);
      wallMs[i] = (System.nanoTime() - began) / 1e6;
    }
    double cpuMs = (PROCESS.getProcessCpuTime() - cpu) / 1e6 / times;
    double first = wallMs[0];
    Arrays.sort(wallMs);
    say(
        "%s: median %.1f ms, 95 %% %.1f, first %.1f; processor: %.1f ms",
        name, wallMs[times / 2], wallMs[(int) (0.95 * (times - 1))], first, cpuMs);
  }

  private static void say(String form, Object... values) {
    System.out.println(String.format(Locale.ROOT, form, values));
  }
}
