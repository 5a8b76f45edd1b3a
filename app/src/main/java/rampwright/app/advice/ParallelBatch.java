package rampwright.app.advice;

import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;
import java.util.concurrent.TimeUnit;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import rampwright.analysis.fit.Batch;

/**
 * Runs pieces of work on as many threads as there are processors; results keep the order of their
 * index.
 *
 * <p>Pieces may hand out pieces of their own. A thread that waits for the last of its pieces is
 * made up for by another, as long as it is one of the pool's: a caller from outside, who would wait
 * with a processor idle, hands the whole over.
 */
public final class ParallelBatch implements Batch {
  private static final int PROCESSORS = Runtime.getRuntime().availableProcessors();
  private static final int MOST_THREADS = 64;
  private static final int KEEP_S = 10;
  private static final ForkJoinPool POOL =
      new ForkJoinPool(
          PROCESSORS,
          ForkJoinPool.defaultForkJoinWorkerThreadFactory,
          null,
          false,
          PROCESSORS,
          PROCESSORS + MOST_THREADS,
          PROCESSORS,
          any -> true,
          KEEP_S,
          TimeUnit.SECONDS);

  @Override
  public <T> List<T> map(int count, IntFunction<T> function) {
    Callable<List<T>> all = () -> IntStream.range(0, count).parallel().mapToObj(function).toList();
    return ForkJoinTask.getPool() == POOL
        ? IntStream.range(0, count).parallel().mapToObj(function).toList()
        : POOL.submit(all).join();
  }
}
