package rampwright.exam.product;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.trace.Trace;
import rampwright.app.json.AdviceJson;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.TraceFileDoor;
import rampwright.app.usecase.UsageProblem;
import rampwright.exam.tuner.Adviser;
import rampwright.exam.tuner.ProcessAdviser;

/** The product's use case, asked in process through the same folders and the same JSON. */
public final class ProductAdviser implements Adviser {
  private static final AtomicLong LONGEST_MS = new AtomicLong();
  private static final AtomicLong TOTAL_MS = new AtomicLong();
  private static final AtomicLong ASKED = new AtomicLong();

  private final AdviseAsset advise = useCase();

  /** The use case, reading traces as the product does. */
  static AdviseAsset useCase() {
    return new AdviseAsset(
        new TraceFileDoor() {
          @Override
          public Trace read(ReadRequest request) throws TraceFileException {
            return TraceFiles.read(
                request.file(),
                new ReadOptions(
                    request.columns(),
                    request.declaredKind(),
                    request.secondary(),
                    request.context()));
          }

          @Override
          public List<Path> write(WriteRequest request) {
            throw new UnsupportedOperationException("the exam writes no traces");
          }
        },
        TraceAnalyzer::analyze,
        "exam");
  }

  @Override
  public String name() {
    return "product";
  }

  @Override
  public Proposal next(Path folder, Told told) {
    long begun = System.nanoTime();
    try {
      AdviseAsset.Advised a = advise.advise(folder);
      String json = AdviceJson.advice(a.advice(), a.present(), a.used(), a.leftOut());
      long tookMs = (System.nanoTime() - begun) / 1_000_000;
      LONGEST_MS.accumulateAndGet(tookMs, Math::max);
      TOTAL_MS.addAndGet(tookMs);
      ASKED.incrementAndGet();
      return ProcessAdviser.parse(json, told);
    } catch (InputProblem | UsageProblem e) {
      throw new IllegalStateException(
          "the product refused the exam's folder: " + e.getMessage(), e);
    }
  }

  /** Mean and longest time an answer took so far. */
  public static String times() {
    return "answers "
        + ASKED
        + ", mean "
        + TOTAL_MS.get() / Math.max(1, ASKED.get())
        + " ms, longest "
        + LONGEST_MS
        + " ms";
  }
}
