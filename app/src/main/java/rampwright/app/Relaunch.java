package rampwright.app;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * Runs a command in a Java machine that is set up for its length. {@code java -jar} starts one that
 * compiles thoroughly and takes much memory, which pays after minutes; of a command that is over in
 * two seconds it takes almost half. A jar cannot ask for another machine, so the program starts one
 * and hands its answer on; docs/benchmarks.md has what that saves. Whoever gives the machine words
 * of his own is left alone.
 */
final class Relaunch {
  /** Over in seconds: nothing is compiled thoroughly. */
  private static final List<String> SHORT =
      List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmn24m");

  /**
   * Many assets one after another: room for what soon goes, and no more than that; thorough
   * compiling from three times the usual thresholds on.
   */
  private static final List<String> MANY =
      List.of(
          "-XX:+UseSerialGC",
          "-Xmn64m",
          "-XX:Tier4InvocationThreshold=15000",
          "-XX:Tier4MinInvocationThreshold=1800",
          "-XX:Tier4CompileThreshold=45000",
          "-XX:Tier4BackEdgeThreshold=120000");

  private static final Set<String> ALWAYS_SHORT =
      Set.of("advise", "predict", "ready", "heat", "demo");
  private static final Set<String> SHORT_IF_SMALL = Set.of("analyze", "compare", "chart", "report");
  private static final Set<String> OF_MANY = Set.of("trend", "logbook");

  /** Variables that speak to the Java machine. */
  private static final List<String> SPOKEN =
      List.of("JDK_JAVA_OPTIONS", "JAVA_TOOL_OPTIONS", "_JAVA_OPTIONS");

  /** About 200 traces of readings; beyond that thorough compiling pays. */
  private static final long SMALL_BYTES = 16_000_000;

  private static final long UNPACKED = 8;

  private Relaunch() {}

  /** The exit code of the command run elsewhere; empty where it is to be run here. */
  static OptionalInt run(String[] args) {
    if (args.length == 0 || SPOKEN.stream().anyMatch(System.getenv()::containsKey)) {
      return OptionalInt.empty();
    }
    ProcessHandle.Info self = ProcessHandle.current().info();
    Optional<List<String>> words =
        self.command()
            .flatMap(
                java -> self.arguments().flatMap(given -> words(java, Arrays.asList(given), args)));
    return words.isEmpty() ? OptionalInt.empty() : run(words.get());
  }

  /**
   * The words of the other machine; empty where this one will do.
   *
   * @param java the running program
   * @param given its own arguments
   * @param args those of the command, at their end
   */
  static Optional<List<String>> words(String java, List<String> given, String... args) {
    // -jar first: the machine was given no words of its own
    boolean plain =
        given.size() == args.length + 2
            && given.get(0).equals("-jar")
            && given.subList(2, given.size()).equals(Arrays.asList(args));
    List<String> flags = plain ? flags(args) : List.of();
    if (flags.isEmpty()) {
      return Optional.empty();
    }
    List<String> words = new ArrayList<>(List.of(java));
    words.addAll(flags);
    words.addAll(given);
    return Optional.of(words);
  }

  private static List<String> flags(String... args) {
    String command = args[0];
    if (ALWAYS_SHORT.contains(command)) {
      return SHORT;
    }
    if (OF_MANY.contains(command)) {
      return MANY;
    }
    return SHORT_IF_SMALL.contains(command) && isSmall(args) ? SHORT : List.of();
  }

  private static boolean isSmall(String... args) {
    long left = SMALL_BYTES;
    for (int i = 1; i < args.length && left >= 0; i++) {
      left -= bytes(new File(args[i]), left);
    }
    return left >= 0;
  }

  /** Of a file or of all in a folder; more than {@code most} where that is passed. */
  private static long bytes(File path, long most) {
    File[] inside = path.listFiles();
    if (inside == null) {
      return path.getName().endsWith(".gz") ? UNPACKED * path.length() : path.length();
    }
    long sum = 0;
    for (int i = 0; i < inside.length && sum <= most; i++) {
      // a link may lead back to where it stands, and to so many more of its kind
      sum += Files.isSymbolicLink(inside[i].toPath()) ? 0 : bytes(inside[i], most - sum);
    }
    return sum;
  }

  private static OptionalInt run(List<String> words) {
    Process process;
    try {
      process = new ProcessBuilder(words).inheritIO().start();
    } catch (IOException notToBeHad) {
      // no more processes, or a machine that forbids them: here, then, and slower
      return OptionalInt.empty();
    }
    // Whoever ends this one means the other.
    Thread end = new Thread(process::destroy);
    Runtime.getRuntime().addShutdownHook(end);
    while (true) {
      try {
        return OptionalInt.of(process.waitFor());
      } catch (InterruptedException e) {
        process.destroy();
      }
    }
  }
}
