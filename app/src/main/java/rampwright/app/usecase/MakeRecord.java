package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.SiteTime;
import rampwright.app.ready.EnergisingFile;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.report.Had;
import rampwright.app.report.HeatView;
import rampwright.app.report.Report;
import rampwright.app.report.ReportTrial;
import rampwright.app.report.Seal;
import rampwright.app.report.Signature;
import rampwright.app.report.SignatureCheck;
import rampwright.app.report.SignatureFile;
import rampwright.app.report.Standing;
import rampwright.app.result.HeatResult;
import rampwright.app.result.TrialResult;

/**
 * The commissioning record of an asset folder. Nothing in the folder is changed. What cannot be had
 * is in the record with why: only a folder without a sheet has none.
 */
public final class MakeRecord {
  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final String toolVersion;
  private final InstantSource clock;
  private final Function<HeatResult, String> heatWords;

  /**
   * The use case.
   *
   * @param heatWords a heat account's answer in a sentence
   */
  public MakeRecord(
      TraceFileDoor door,
      Analyzer analyzer,
      String toolVersion,
      InstantSource clock,
      Function<HeatResult, String> heatWords) {
    this.door = door;
    this.analyzer = analyzer;
    this.toolVersion = toolVersion;
    this.clock = clock;
    this.heatWords = heatWords;
  }

  /**
   * Makes the record.
   *
   * @param by who makes it; null where not said
   * @throws UsageProblem when the folder has no {@code asset.toml}
   * @throws InterruptedException when the work was cancelled
   */
  public Report run(Path folder, @Nullable String by, Progress progress)
      throws UsageProblem, InterruptedException {
    if (!Files.isDirectory(folder) || !AssetFolders.isAssetFolder(folder)) {
      throw new UsageProblem(folder + ": is no asset folder; name a folder that holds asset.toml");
    }
    String name = by == null ? null : PersonsWord.name(by, "who makes the record");
    Instant now = clock.instant().truncatedTo(ChronoUnit.SECONDS);
    Had<AssetFile> asset = asset(folder);
    AssetFile file = asset.value();
    SiteTime site = file == null ? new SiteTime(ZoneId.systemDefault()) : SiteTime.of(file.asset());
    Had<Seal> seal = seal(folder);
    // Two threads: readiness fits a model of its own while the trials are read.
    ExecutorService pool = Executors.newFixedThreadPool(2, MakeRecord::thread);
    try {
      Future<Had<Readiness>> readiness = pool.submit(() -> readiness(folder, asset));
      String gone = null;
      List<TrialJob> jobs = List.of();
      try {
        jobs = jobs(folder, file != null);
      } catch (InputProblem e) {
        gone = e.getMessage();
      }
      TrialReader reader = new TrialReader(door, analyzer, toolVersion, InputChoice.DEFAULT);
      List<ReportTrial> trials =
          new RecordTrials(folder, reader, pool).of(jobs, seal.value(), progress);
      Instant ended = lastEnd(trials);
      return new Report(
          nameOf(folder),
          now,
          name,
          toolVersion,
          site,
          asset,
          list(folder),
          got(readiness),
          trials,
          gone,
          Standing.of(asset, trials, site),
          heat(folder, asset, ended),
          heat(folder, asset, null),
          seal,
          signatures(folder, seal));
    } finally {
      pool.shutdownNow();
    }
  }

  private static Thread thread(Runnable task) {
    Thread thread = new Thread(task, "record");
    thread.setDaemon(true);
    return thread;
  }

  static String nameOf(Path folder) {
    Path name = folder.toAbsolutePath().normalize().getFileName();
    return name == null ? folder.toString() : name.toString();
  }

  /** The trials; without the sheet where it cannot be read, so that they are in the record. */
  private static List<TrialJob> jobs(Path folder, boolean sheet) throws InputProblem {
    List<TrialJob> jobs = new ArrayList<>();
    for (TrialJob job : FindTrials.ofAsset(folder)) {
      jobs.add(
          sheet
              ? job
              : new TrialJob(
                  job.shown(), job.trace(), null, job.settingsFile(), null, job.problem()));
    }
    return jobs;
  }

  private static Had<AssetFile> asset(Path folder) {
    Path path = folder.resolve(AssetFolders.ASSET);
    try {
      return Had.of(AssetFiles.read(path));
    } catch (TomlProblemsException e) {
      return Had.fault(String.valueOf(e.getMessage()));
    } catch (IOException e) {
      return Had.fault(String.valueOf(InputProblem.of(e, path).getMessage()));
    }
  }

  private static Had<EnergisingList> list(Path folder) {
    try {
      return Had.of(EnergisingFile.read(folder));
    } catch (TomlProblemsException e) {
      return Had.fault(String.valueOf(e.getMessage()));
    } catch (IOException e) {
      return Had.fault(
          String.valueOf(InputProblem.of(e, folder.resolve(EnergisingFile.NAME)).getMessage()));
    }
  }

  private Had<Readiness> readiness(Path folder, Had<AssetFile> asset) {
    if (asset.value() == null) {
      return Had.not("asset.toml cannot be read");
    }
    try {
      return Had.of(new CheckReadiness(door, analyzer, toolVersion).run(folder, null));
    } catch (UsageProblem e) {
      return Had.not(String.valueOf(e.getMessage()));
    } catch (InputProblem e) {
      return Had.fault(String.valueOf(e.getMessage()));
    }
  }

  private static Had<Readiness> got(Future<Had<Readiness>> pending) throws InterruptedException {
    try {
      return pending.get();
    } catch (ExecutionException e) {
      return Had.fault("readiness: a defect of this program stopped it: " + e.getCause());
    }
  }

  /** When the last trial with a trace ended; null where there is none. */
  private static @Nullable Instant lastEnd(List<ReportTrial> trials) {
    Instant last = null;
    for (ReportTrial trial : trials) {
      Instant at = trial.at();
      if (at != null && trial.entry() instanceof TrialResult result) {
        long lastsMs = Math.round(1000 * result.figures().durationS());
        Instant end = at.plusMillis(lastsMs);
        last = last == null || end.isAfter(last) ? end : last;
      }
    }
    return last;
  }

  private Had<HeatView> heat(Path folder, Had<AssetFile> asset, @Nullable Instant moment) {
    if (asset.value() == null) {
      return Had.not("asset.toml cannot be read");
    }
    try {
      KeepHeat keep = new KeepHeat(door, analyzer, toolVersion, clock);
      HeatResult result = moment == null ? keep.look(folder, List.of()) : keep.at(folder, moment);
      return Had.of(new HeatView(result, heatWords.apply(result)));
    } catch (UsageProblem e) {
      return Had.not(String.valueOf(e.getMessage()));
    } catch (InputProblem e) {
      return Had.fault(String.valueOf(e.getMessage()));
    }
  }

  private static Had<Seal> seal(Path folder) {
    try {
      return Had.of(SealFolder.of(folder));
    } catch (IOException e) {
      return Had.fault(String.valueOf(InputProblem.of(e, folder).getMessage()));
    }
  }

  private static Had<List<SignatureCheck>> signatures(Path folder, Had<Seal> seal) {
    Seal now = seal.value();
    try {
      List<Signature> signatures = SignatureFile.read(folder);
      if (now == null) {
        return signatures.isEmpty()
            ? Had.of(List.of())
            : Had.fault("what was signed cannot be compared: " + seal.reason());
      }
      return Had.of(signatures.stream().map(one -> SignatureCheck.of(one, now)).toList());
    } catch (TomlProblemsException e) {
      return Had.fault(String.valueOf(e.getMessage()));
    } catch (IOException e) {
      return Had.fault(
          String.valueOf(InputProblem.of(e, folder.resolve(SignatureFile.NAME)).getMessage()));
    }
  }
}
