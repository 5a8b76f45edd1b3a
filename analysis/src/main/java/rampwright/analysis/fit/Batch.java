package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;

/**
 * Works off independent pieces of a fit; lets a caller who has threads use them.
 *
 * <p>The function is free of side effects; results come in the order of their index, so that the
 * outcome does not depend on how the pieces were run.
 */
public interface Batch {
  /** One after the other. */
  Batch IN_TURN = new InTurn();

  /** Results of a function for the indices from 0 to count - 1. */
  <T> List<T> map(int count, IntFunction<T> function);

  /** Runs the pieces one after the other. */
  final class InTurn implements Batch {
    private InTurn() {}

    @Override
    public <T> List<T> map(int count, IntFunction<T> function) {
      List<T> out = new ArrayList<>(count);
      for (int k = 0; k < count; k++) {
        out.add(function.apply(k));
      }
      return out;
    }
  }
}
