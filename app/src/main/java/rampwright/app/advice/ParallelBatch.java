package rampwright.app.advice;

import java.util.List;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import rampwright.analysis.fit.Batch;

/** Runs pieces of work on the common pool; results keep the order of their index. */
public final class ParallelBatch implements Batch {
  @Override
  public <T> List<T> map(int count, IntFunction<T> function) {
    return IntStream.range(0, count).parallel().mapToObj(function).toList();
  }
}
