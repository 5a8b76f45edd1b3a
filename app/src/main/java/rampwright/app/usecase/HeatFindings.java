package rampwright.app.usecase;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.heat.HeatAccount;
import rampwright.analysis.heat.HeatHistory;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.heat.HeatStretch;
import rampwright.analysis.heat.StartHeat;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFolders;
import rampwright.app.heat.HeatBook;
import rampwright.app.heat.HeatBookFile;
import rampwright.app.heat.HeatSheet;
import rampwright.app.result.TrialResult;

/**
 * The finding {@code repeat-too-soon} from the heat account of the trials that were analysed: of an
 * asset folder's dated trials the account takes the place of the bare spacing within one trace.
 */
final class HeatFindings {
  private static final String CODE = "repeat-too-soon";

  private final Map<Path, List<Trial>> trials = new LinkedHashMap<>();

  private record Trial(int index, String name, Instant at, TrialResult result, HeatStretch heat) {}

  /** Takes note of a trial, where it lies in its asset's folder and has a date. */
  void note(int index, TrialJob job, TrialResult result) {
    AssetFile asset = result.asset();
    HeatStretch heat = result.heat();
    Path folder = folderOf(job);
    if (asset == null || heat == null || folder == null) {
      return;
    }
    String name = HeatGathering.nameOf(job);
    TrialDates.Date declared = TrialDates.declared(name, result.trial());
    Instant at = declared != null ? declared.at() : startOf(result);
    if (at != null) {
      trials
          .computeIfAbsent(folder, key -> new ArrayList<>())
          .add(new Trial(index, name, at, result, heat));
    }
  }

  private static @Nullable Instant startOf(TrialResult result) {
    String start = result.facts().provenance().startUtc();
    try {
      return start == null ? null : Instant.parse(start);
    } catch (java.time.DateTimeException notADate) {
      return null;
    }
  }

  private static @Nullable Path folderOf(TrialJob job) {
    Path trace = job.trace();
    Path trial = trace == null ? null : trace.toAbsolutePath().normalize().getParent();
    Path asset = trial == null ? null : AssetFolders.assetOf(trial);
    return asset == null ? null : asset.getParent();
  }

  /** The results with their findings put right, by the index they were noted under. */
  Map<Integer, TrialResult> results() {
    Map<Integer, TrialResult> changed = new HashMap<>();
    trials.forEach((folder, of) -> add(folder, of, changed));
    return changed;
  }

  private static void add(Path folder, List<Trial> of, Map<Integer, TrialResult> changed) {
    AssetFile asset = of.get(0).result().asset();
    if (asset == null) {
      return;
    }
    Instant zero = of.get(0).at();
    List<HeatHistory.Dated> dated = new ArrayList<>();
    List<StartHeat> starts;
    try {
      HeatBook book = HeatBookFile.read(folder);
      for (Trial trial : of) {
        Instant at = onClockOfNow(book, trial);
        dated.add(new HeatHistory.Dated(trial.name(), second(zero, at), trial.heat(), true));
      }
      List<Double> cold = new ArrayList<>();
      for (HeatBook.Cold one : book.cold()) {
        cold.add(second(zero, book.onClockOfNow(one.at(), one.clock())));
      }
      HeatSheet sheet = HeatSheet.of(asset.asset(), List.of());
      for (HeatBook.Noted one : book.noted()) {
        double atS = second(zero, book.onClockOfNow(one.at(), one.clock()));
        dated.add(new HeatHistory.Dated(one.by(), atS, HeatGathering.stretch(one, sheet), false));
      }
      // Trials that were not analysed now count as the account keeps them.
      for (HeatBook.Entry kept : book.traces()) {
        if (of.stream().noneMatch(trial -> trial.name().equals(kept.trial()))) {
          double atS = second(zero, book.onClockOfNow(kept).at());
          dated.add(new HeatHistory.Dated(kept.trial(), atS, kept.stretch(), true));
        }
      }
      HeatHistory history = new HeatHistory(dated, cold, HeatGathering.forgetS(asset));
      double lastS = dated.stream().mapToDouble(HeatHistory.Dated::beginS).max().orElse(0);
      starts = HeatAccount.at(sheet.plan(), history, lastS).starts();
    } catch (InputProblem
        | TomlProblemsException
        | java.io.IOException
        | IllegalArgumentException e) {
      // Without an account the spacing within one trace has to do; the command heat says why.
      return;
    }
    for (Trial trial : of) {
      List<Finding> findings =
          new ArrayList<>(
              trial.result().figures().findings().stream()
                  .filter(finding -> !finding.code().equals(CODE))
                  .toList());
      double firstS = firstStartS(trial.result());
      for (StartHeat start : starts) {
        if (start.measured() && start.name().equals(trial.name()) && start.isTooSoon()) {
          findings.add(finding(start, firstS + offset(trial.heat(), start, starts)));
        }
      }
      if (!findings.equals(trial.result().figures().findings())) {
        changed.put(trial.index(), trial.result().withFindings(findings));
      }
    }
  }

  /**
   * When a trial began, on the clock the account goes by now. One the account does not keep was met
   * after every step of the clock that it knows.
   */
  private static Instant onClockOfNow(HeatBook book, Trial trial) {
    HeatBook.Entry kept = book.entry(trial.name());
    int known = kept == null ? book.steps().size() : kept.clock();
    return book.onClockOfNow(trial.at(), known);
  }

  /** Where the trace's first start begins, on its own time base; 0 where that is not known. */
  private static double firstStartS(TrialResult result) {
    return result.figures().starts().stream()
        .map(start -> start.instants().get("inception_s"))
        .filter(at -> at != null && at.value() != null)
        .mapToDouble(at -> at == null || at.value() == null ? 0 : at.value())
        .findFirst()
        .orElse(0);
  }

  /** How long after the trace's first start a start began, s. */
  private static double offset(HeatStretch heat, StartHeat start, List<StartHeat> all) {
    double firstS =
        all.stream()
            .filter(one -> one.name().equals(start.name()))
            .mapToDouble(StartHeat::atS)
            .min()
            .orElse(start.atS());
    return heat.starts().isEmpty() ? 0 : start.atS() - firstS;
  }

  private static Finding finding(StartHeat start, double atS) {
    HeatPart.Kind ruledBy = start.ruledBy();
    String rule = ruledBy == null ? "the heat account" : ruledBy.key();
    Double soonS = start.tooSoonByS();
    return new Finding(
        CODE,
        atS,
        atS,
        soonS,
        soonS == null
            ? "started although the heat account allowed no start: " + rule
            : String.format(
                Locale.ROOT,
                "started %.0f s before the heat account allowed it: %s; rotor at %.0f %% of its budget,"
                    + " the start took %.1f %%",
                soonS,
                rule,
                100 * start.before().rotor(),
                100 * start.rotorAdded()));
  }

  private static double second(Instant zero, Instant at) {
    return Duration.between(zero, at).toMillis() / 1000.0;
  }
}
