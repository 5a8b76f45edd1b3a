package rampwright.app.usecase;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;

/** Opens the logbook a person means and closes it after use. */
public final class LogbookUse {
  /** Variable that names the logbook where none is named. */
  public static final String VARIABLE = "RAMPWRIGHT_LOGBOOK";

  private static final String FILE = "logbook.db";

  /** Fewer of them are done by one sooner than another connection is open. */
  private static final int WORTH_A_WORKER = 16;

  /** Neighbours' starts lie on the same pages of a file: one connection reads these once. */
  private static final int AT_A_TIME = 8;

  private final UnaryOperator<@Nullable String> environment;
  private final InstantSource clock;

  public LogbookUse(UnaryOperator<@Nullable String> environment, InstantSource clock) {
    this.environment = environment;
    this.clock = clock;
  }

  /** Work with an open logbook. */
  public interface Work<T> {
    T with(Logbook logbook)
        throws LogbookException, InputProblem, UsageProblem, InterruptedException;
  }

  /**
   * Where the logbook is: what was named, else what the environment names, else {@code logbook.db}
   * in the present folder.
   */
  public String where(@Nullable String named) {
    if (named != null) {
      return named;
    }
    String variable = environment.apply(VARIABLE);
    return variable == null || variable.isBlank() ? FILE : variable;
  }

  /**
   * Says which assets there are where one is not among them.
   *
   * @param known that have starts
   */
  static void demandKnown(String asset, List<String> known) throws UsageProblem {
    if (!known.contains(asset)) {
      int most = 20;
      throw new UsageProblem(
          asset
              + ": has no starts in this logbook; it holds "
              + (known.isEmpty()
                  ? "none"
                  : String.join(", ", known.subList(0, Math.min(most, known.size()))))
              + (known.size() > most ? " and " + (known.size() - most) + " more" : ""));
    }
  }

  /**
   * The same for whoever does not work in the present folder: paths are taken from another.
   *
   * @param named null for what the environment names, else {@code logbook.db} in that folder
   */
  public String where(@Nullable String named, Path folder) {
    String variable = environment.apply(VARIABLE);
    if (named == null && variable != null && !variable.isBlank()) {
      return variable;
    }
    String chosen = named == null ? FILE : named;
    return chosen.contains("://") ? chosen : folder.resolve(chosen).toString();
  }

  /** Whether the environment names a logbook. */
  public boolean isNamedByEnvironment() {
    String variable = environment.apply(VARIABLE);
    return variable != null && !variable.isBlank();
  }

  /**
   * Opens, works, closes.
   *
   * @throws InputProblem with what is wrong with the logbook
   */
  public <T> T run(@Nullable String named, Work<T> work)
      throws InputProblem, UsageProblem, InterruptedException {
    try (Logbook logbook = Logbook.open(where(named), environment, clock)) {
      return work.with(logbook);
    } catch (LogbookException e) {
      throw new InputProblem(String.valueOf(e.getMessage()));
    }
  }

  /** Work on one of many with an open logbook. */
  public interface WorkOnEach<A, T> {
    T with(Logbook logbook, A one) throws LogbookException;
  }

  /**
   * The same work on many, side by side on the processors there are, each with a connection of its
   * own.
   *
   * @return what came of each, in their order
   */
  public <A, T> List<T> forEach(@Nullable String named, List<A> many, WorkOnEach<A, T> work)
      throws InputProblem, InterruptedException {
    int workers =
        Math.max(
            1, Math.min(Runtime.getRuntime().availableProcessors(), many.size() / WORTH_A_WORKER));
    AtomicInteger next = new AtomicInteger();
    Map<Integer, T> results = new ConcurrentHashMap<>();
    Callable<Boolean> worker =
        () -> {
          try (Logbook logbook = Logbook.open(where(named), environment, clock)) {
            for (int from = next.getAndAdd(AT_A_TIME);
                from < many.size();
                from = next.getAndAdd(AT_A_TIME)) {
              int to = Math.min(many.size(), from + AT_A_TIME);
              for (int i = from; i < to && !Thread.currentThread().isInterrupted(); i++) {
                results.put(i, work.with(logbook, many.get(i)));
              }
            }
          }
          return true;
        };
    ExecutorService pool =
        Executors.newFixedThreadPool(
            workers,
            task -> {
              Thread thread = new Thread(task, "logbook");
              thread.setDaemon(true);
              return thread;
            });
    try {
      List<Future<Boolean>> pending = new ArrayList<>();
      for (int i = 0; i < workers; i++) {
        pending.add(pool.submit(worker));
      }
      for (Future<Boolean> one : pending) {
        one.get();
      }
      return List.copyOf(new TreeMap<>(results).values());
    } catch (ExecutionException e) {
      if (e.getCause() instanceof LogbookException trouble) {
        throw new InputProblem(String.valueOf(trouble.getMessage()));
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }
}
