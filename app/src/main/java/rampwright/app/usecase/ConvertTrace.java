package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.TraceFileException;
import rampwright.analysis.trace.Trace;
import rampwright.app.asset.AssetFile;
import rampwright.app.result.TraceFacts;

/** Writes a trace in another format. */
public final class ConvertTrace {
  private final TraceFileDoor door;
  private final Analyzer analyzer;

  public ConvertTrace(TraceFileDoor door, Analyzer analyzer) {
    this.door = door;
    this.analyzer = analyzer;
  }

  /**
   * What was converted.
   *
   * @param facts what the source held
   * @param files the files made
   */
  public record Converted(TraceFacts facts, List<Path> files) {}

  /**
   * Converts a trace.
   *
   * @param format null to take it from the target's ending
   * @param overwrite whether a file that is there may be replaced
   */
  public Converted run(
      Path source, Path target, @Nullable TraceFormat format, InputChoice choice, boolean overwrite)
      throws InputProblem, UsageProblem {
    TraceFormat chosen = format == null ? TraceFormat.ofEnding(target).orElse(null) : format;
    if (chosen == null) {
      throw new UsageProblem(
          target
              + ": the ending does not say the format; use .csv, .csv.gz, .cfg or .cff, or give"
              + " --format "
              + String.join("|", TraceFormat.keys()));
    }
    if (Files.exists(target) && !overwrite) {
      throw new UsageProblem(target + ": is there already; name another file or give --overwrite");
    }
    TrialReader reader = new TrialReader(door, analyzer, "", choice);
    List<TrialJob> jobs = new FindTrials(choice, false).in(List.of(source));
    TrialJob job = jobs.get(0);
    Path trace = job.trace();
    if (job.problem() != null) {
      throw new InputProblem(job.problem());
    }
    if (jobs.size() != 1 || trace == null) {
      throw new UsageProblem(source + ": is not one trace; name the trace file to convert");
    }
    Trace read = reader.trace(trace, reader.columnsFor(reader.trialFile(job.settingsFile())));
    AssetFile asset = reader.asset(job.assetFile());
    Double frequencyHz = asset == null ? null : asset.asset().motor().ratedFrequencyHz();
    try {
      List<Path> files =
          door.write(new TraceFileDoor.WriteRequest(read, target, chosen, frequencyHz));
      return new Converted(TraceFacts.of(read), files);
    } catch (TraceFileException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
  }
}
