package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ComtradeEdition;
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
   * How a trace is to be written.
   *
   * @param format null to take it from the target's ending
   * @param edition of COMTRADE; null for the newest
   */
  public record Form(@Nullable TraceFormat format, @Nullable ComtradeEdition edition) {}

  private static ComtradeEdition edition(Form form, TraceFormat format, Path target)
      throws UsageProblem {
    ComtradeEdition edition = form.edition();
    if (edition == null) {
      return ComtradeEdition.E2013;
    }
    if (format == TraceFormat.CSV) {
      throw new UsageProblem(target + ": --edition is COMTRADE's; leave it out for CSV");
    }
    boolean single = target.toString().toLowerCase(Locale.ROOT).endsWith(".cff");
    boolean wide =
        format == TraceFormat.COMTRADE_BINARY32 || format == TraceFormat.COMTRADE_FLOAT32;
    if (edition != ComtradeEdition.E2013 && (single || wide)) {
      throw new UsageProblem(
          target
              + ": "
              + (single ? "a single file (.cff)" : format.key())
              + " came with the edition of 2013; for "
              + edition.year()
              + " name a .cfg and --format comtrade-ascii or comtrade-binary");
    }
    return edition;
  }

  /**
   * Converts a trace.
   *
   * @param form format and edition; null to take them from the target's ending
   * @param overwrite whether a file that is there may be replaced
   */
  public Converted run(Path source, Path target, Form form, InputChoice choice, boolean overwrite)
      throws InputProblem, UsageProblem {
    TraceFormat chosen =
        form.format() == null ? TraceFormat.ofEnding(target).orElse(null) : form.format();
    if (chosen == null) {
      throw new UsageProblem(
          target
              + ": the ending does not say the format; use .csv, .csv.gz, .cfg or .cff, or give"
              + " --format "
              + String.join("|", TraceFormat.keys()));
    }
    ComtradeEdition edition = edition(form, chosen, target);
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
          door.write(new TraceFileDoor.WriteRequest(read, target, chosen, edition, frequencyHz));
      return new Converted(TraceFacts.of(read), files);
    } catch (TraceFileException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
  }
}
