package rampwright.app.usecase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Definitions;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.asset.AssetFolders;
import rampwright.app.logbook.KeptEntry;
import rampwright.app.logbook.LogFile;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.logbook.Reanalyzed;
import rampwright.app.result.Entry;

/**
 * Takes the figures of logged starts again from the traces the logbook keeps, where the program or
 * the definitions have changed since. A start with other figures is entered anew and names its old
 * entry; both stay, each with its version. Trials are entered one after the other: what was done
 * before an end stays done.
 */
public final class ReanalyzeStarts {
  /**
   * A logbook may come from anywhere: names in it must not lead out of the folder made for them.
   */
  private static final Pattern FOLDER = Pattern.compile("[^./\\\\:\\x00][^/\\\\:\\x00]{0,200}");

  private static final Pattern TRACE = Pattern.compile("trace(\\.[a-z0-9]{1,8}){1,2}");

  private final AnalyzeTraces analyze;
  private final LogbookUse logbooks;

  public ReanalyzeStarts(AnalyzeTraces analyze, LogbookUse logbooks) {
    this.analyze = analyze;
    this.logbooks = logbooks;
  }

  /**
   * Analyses again.
   *
   * @param assets by id; none for all
   * @throws UsageProblem where an asset has no starts
   */
  public Reanalyzed run(List<String> assets, @Nullable String logbook, Progress progress)
      throws InputProblem, UsageProblem, InterruptedException {
    return logbooks.run(
        logbook,
        book -> {
          List<String> known = book.assets();
          for (String asset : assets) {
            LogbookUse.demandKnown(asset, known);
          }
          Map<String, KeptEntry> due = new LinkedHashMap<>();
          for (String asset : assets.isEmpty() ? known : assets) {
            for (KeptEntry kept : book.newest(asset, Integer.MAX_VALUE)) {
              if (isDue(kept)) {
                due.putIfAbsent(trialOf(kept), kept);
              }
            }
          }
          return all(book, List.copyOf(due.values()), progress);
        });
  }

  private boolean isDue(KeptEntry kept) {
    var origin = kept.entry().origin();
    return origin.hasTrace()
        && !(origin.definitions().equals(Definitions.VERSION)
            && origin.toolVersion().equals(analyze.toolVersion()));
  }

  /** Several starts of one trace are analysed together. */
  private static String trialOf(KeptEntry kept) {
    return kept.entry().asset()
        + "\n"
        + folderOf(kept)
        + "\n"
        + kept.entry().origin().traceSha256();
  }

  private static String folderOf(KeptEntry kept) {
    String trial = kept.entry().origin().trial();
    return trial.contains("#") ? trial.substring(0, trial.lastIndexOf('#')) : trial;
  }

  private Reanalyzed all(Logbook book, List<KeptEntry> due, Progress progress)
      throws LogbookException, InputProblem, InterruptedException {
    int trials = 0;
    int changed = 0;
    int same = 0;
    List<String> problems = new ArrayList<>();
    progress.begun(due.size());
    try {
      for (KeptEntry kept : due) {
        String shown = kept.entry().asset() + " " + folderOf(kept);
        List<LogFile> files = book.files(kept);
        String basis = basis(kept, files);
        boolean failed = false;
        if (files.stream().noneMatch(file -> TRACE.matcher(file.name()).matches())) {
          problems.add(shown + ": its trace is not kept; import its folder again");
          failed = true;
        } else if (book.lookedAt(basis).isEmpty()) {
          trials++;
          Logbook.Appended appended = one(book, kept, files, basis, problems);
          changed += appended.added();
          same += appended.known();
          failed = appended.added() + appended.known() == 0;
        }
        progress.done(shown, failed);
      }
      return new Reanalyzed(trials, changed, same, Definitions.VERSION, problems);
    } finally {
      progress.ended();
    }
  }

  private String basis(KeptEntry kept, List<LogFile> files) {
    StringBuilder text = new StringBuilder("again\n").append(trialOf(kept)).append('\n');
    files.forEach(file -> text.append(file.name()).append(' ').append(file.sha256()).append('\n'));
    text.append(Definitions.VERSION).append(' ').append(analyze.toolVersion());
    return LogFile.sha256(text.toString().getBytes(StandardCharsets.UTF_8));
  }

  private Logbook.Appended one(
      Logbook book, KeptEntry kept, List<LogFile> files, String basis, List<String> problems)
      throws LogbookException, InputProblem, InterruptedException {
    Path folder = null;
    try {
      folder = Files.createTempDirectory("rampwright-again");
      Laid laid = lay(folder, folderOf(kept), files);
      StartEntries starts = new StartEntries(laid.choice());
      for (Entry entry : analyze.entries(List.of(laid.job()), laid.choice(), Progress.NONE)) {
        starts.take(entry, basis);
      }
      for (String problem : starts.rejected()) {
        problems.add(
            problem.replace(laid.job().shown(), kept.entry().asset() + " " + folderOf(kept)));
      }
      return starts.enterAlone(book);
    } catch (IOException e) {
      throw InputProblem.of(e, folder == null ? Path.of("temporary folder") : folder);
    } finally {
      if (folder != null) {
        clear(folder);
      }
    }
  }

  /** A trial laid out as it was. */
  private record Laid(TrialJob job, InputChoice choice) {}

  private static Laid lay(Path folder, String name, List<LogFile> files) throws IOException {
    Path trial = folder.resolve("asset").resolve(AssetFolders.TRIALS);
    trial = Files.createDirectories(trial.resolve(FOLDER.matcher(name).matches() ? name : "trial"));
    Path asset = folder.resolve("asset").resolve(AssetFolders.ASSET);
    Path columns = null;
    Path trace = null;
    Path settings = null;
    boolean hasAsset = false;
    String reading = "";
    for (LogFile file : files) {
      switch (file.name()) {
        case AssetFolders.ASSET -> {
          Files.write(asset, file.content());
          hasAsset = true;
        }
        case TrialFileSet.COLUMNS ->
            columns = Files.write(folder.resolve(TrialFileSet.COLUMNS), file.content());
        case TrialFileSet.READING -> reading = new String(file.content(), StandardCharsets.UTF_8);
        case AssetFolders.SETTINGS ->
            settings = Files.write(trial.resolve(AssetFolders.SETTINGS), file.content());
        default -> {
          if (!TRACE.matcher(file.name()).matches()) {
            continue;
          }
          Path written = Files.write(trial.resolve(file.name()), file.content());
          trace = trace == null ? written : trace;
        }
      }
    }
    List<String> words = reading.lines().toList();
    InputChoice choice =
        new InputChoice(
            null, null, columns, kind(words), words.contains(TrialFileSet.SECONDARY), Map.of());
    return new Laid(
        new TrialJob(String.valueOf(trace), trace, hasAsset ? asset : null, settings, null, null),
        choice);
  }

  private static @Nullable TraceKind kind(List<String> words) {
    for (TraceKind kind : TraceKind.values()) {
      if (words.contains(kind.name())) {
        return kind;
      }
    }
    return null;
  }

  private static void clear(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (IOException | UncheckedIOException e) {
      // It lies in the system's folder for such things, which is cleared now and then.
    }
  }
}
