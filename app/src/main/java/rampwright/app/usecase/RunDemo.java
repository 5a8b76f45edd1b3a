package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFolders;
import rampwright.app.result.Batch;

/** The main job on the samples that come with the program: analyse, compare, chart, record. */
public final class RunDemo {
  private final SampleSource samples;
  private final AnalyzeTraces analyze;
  private final ChartTrials chart;
  private final MakeRecord record;

  public RunDemo(
      SampleSource samples, AnalyzeTraces analyze, ChartTrials chart, MakeRecord record) {
    this.samples = samples;
    this.analyze = analyze;
    this.chart = chart;
    this.record = record;
  }

  /**
   * What became of one sample asset.
   *
   * @param folder its folder
   * @param batch its trials, held against its envelope
   * @param pictures the charts made
   * @param record the commissioning record, as a page; made of the first asset, null of the others
   */
  public record Shown(Path folder, Batch batch, List<Path> pictures, @Nullable Path record) {}

  /**
   * Runs the demo.
   *
   * @param into folder to leave everything in; made where it is not there, refused where it holds
   *     something else
   */
  public List<Shown> run(Path into, Progress progress)
      throws InputProblem, UsageProblem, InterruptedException {
    List<Path> assets = prepare(into);
    List<Shown> shown = new ArrayList<>();
    for (Path asset : assets) {
      Batch batch = analyze.run(List.of(asset), InputChoice.DEFAULT, true, progress);
      List<Path> pictures = new ArrayList<>();
      for (TrialJob job : new FindTrials(InputChoice.DEFAULT, false).in(List.of(asset))) {
        Path trace = job.trace();
        Path trial = trace == null ? null : trace.getParent();
        if (trace != null && trial != null) {
          Path picture = trial.resolve("trace.png");
          chart.run(List.of(trace), InputChoice.DEFAULT, picture, ChartSize.DEFAULT);
          pictures.add(picture);
        }
      }
      Path page = null;
      if (shown.isEmpty()) {
        page = WriteRecord.target(asset, null, false);
        new WriteRecord().run(record.run(asset, null, Progress.NONE), page);
      }
      shown.add(new Shown(asset, batch, pictures, page));
    }
    return shown;
  }

  private List<Path> prepare(Path into) throws InputProblem, UsageProblem {
    try {
      if (Files.exists(into) && !Files.isDirectory(into)) {
        throw new UsageProblem(into + ": is a file; name a folder with --into");
      }
      Files.createDirectories(into);
      boolean foreign;
      try (Stream<Path> entries = Files.list(into)) {
        foreign = entries.anyMatch(entry -> !AssetFolders.isAssetFolder(entry));
      }
      if (foreign) {
        throw new UsageProblem(
            into + ": holds something else already; name an empty or a new folder with --into");
      }
      if (samples.copyInto(into) == 0) {
        throw new InputProblem("this build of the program has no samples in it; build it anew");
      }
      try (Stream<Path> entries = Files.list(into)) {
        return entries.filter(AssetFolders::isAssetFolder).sorted().toList();
      }
    } catch (IOException e) {
      throw InputProblem.of(e, into);
    }
  }
}
