package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.app.result.TrialResult;

/** Draws one trial, or several over each other. */
public final class ChartTrials {
  /** More curves than this cannot be told apart. */
  private static final int MOST_OVERLAID = 8;

  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final ChartRenderer charts;
  private final String toolVersion;

  public ChartTrials(
      TraceFileDoor door, Analyzer analyzer, ChartRenderer charts, String toolVersion) {
    this.door = door;
    this.analyzer = analyzer;
    this.charts = charts;
    this.toolVersion = toolVersion;
  }

  /**
   * Draws what was named: one trial by itself, several aligned at inception.
   *
   * @param target the picture; its ending says png or svg
   * @return the trials that were drawn
   */
  public List<TrialResult> run(List<Path> named, InputChoice choice, Path target, ChartSize size)
      throws InputProblem, UsageProblem {
    return run(named, choice, target, size, false);
  }

  /** The same; with {@code dip} the voltages around one trial's start. */
  public List<TrialResult> run(
      List<Path> named, InputChoice choice, Path target, ChartSize size, boolean dip)
      throws InputProblem, UsageProblem {
    checkEnding(target);
    List<TrialReader.Read> trials =
        readAll(new TrialReader(door, analyzer, toolVersion, choice), named, choice);
    if (trials.isEmpty()) {
      throw new UsageProblem("there is no trace to draw; name one or an asset folder with trials");
    }
    if (dip && trials.size() != 1) {
      throw new UsageProblem("a dip is drawn of one trial; " + trials.size() + " were named");
    }
    ChartRenderer.Picture one = dip ? ChartRenderer.Picture.DIP : ChartRenderer.Picture.TRIAL;
    try {
      charts.render(
          new ChartRenderer.Request(
              trials.size() == 1 ? one : ChartRenderer.Picture.OVERLAY,
              trials.stream().map(ChartTrials::charted).toList(),
              trials.get(0).envelope(),
              size.widthPx(),
              size.heightPx(),
              target));
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
    return trials.stream().map(TrialReader.Read::result).toList();
  }

  /** Fails unless the ending stands for a picture that can be made. */
  public static void checkEnding(Path target) throws UsageProblem {
    String name = String.valueOf(target.getFileName()).toLowerCase(Locale.ROOT);
    if (!name.endsWith(".png") && !name.endsWith(".svg")) {
      throw new UsageProblem(target + ": the picture's ending must be .png or .svg; name it so");
    }
  }

  static List<TrialReader.Read> readAll(TrialReader reader, List<Path> named, InputChoice choice)
      throws InputProblem, UsageProblem {
    List<TrialReader.Read> trials = new ArrayList<>();
    List<TrialJob> jobs = new FindTrials(choice, false).in(named);
    if (jobs.size() > MOST_OVERLAID) {
      throw new UsageProblem(
          jobs.size()
              + " trials cannot be told apart in one picture; name at most "
              + MOST_OVERLAID);
    }
    for (TrialJob job : jobs) {
      if (job.problem() != null) {
        throw new InputProblem(job.problem());
      }
      Path trace = job.trace();
      if (trace != null) {
        trials.add(reader.read(job, trace));
      }
    }
    return trials;
  }

  static ChartRenderer.Charted charted(TrialReader.Read read) {
    return new ChartRenderer.Charted(
        label(read.result()),
        read.trace(),
        read.analyzed(),
        read.motor(),
        read.result().verdicts().isEmpty() ? null : read.result().verdicts().get(0));
  }

  /** What a picture calls a trial: its asset, and its folder where the file is only "trace". */
  private static String label(TrialResult result) {
    Path file = Path.of(result.file());
    Path parent = file.toAbsolutePath().normalize().getParent();
    Path folder = parent == null ? null : parent.getFileName();
    String name = String.valueOf(file.getFileName());
    String trial = folder != null && name.startsWith("trace.") ? folder.toString() : name;
    return result.asset() == null ? trial : result.asset().asset().name() + ", " + trial;
  }
}
