package rampwright.app.report;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SiteTime;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.result.FailedTrial;

/**
 * The commissioning record of an asset folder.
 *
 * @param folder the folder's name
 * @param madeAt when the record was made
 * @param madeBy by whom; null where not said
 * @param toolVersion version of this program
 * @param site whose clocks the people there go by
 * @param asset the sheet
 * @param list checks before energising
 * @param readiness the checks of ready, with the trials made so far
 * @param trials in order of time
 * @param gone why the trials could not be listed; null where they could
 * @param standing how the record stands
 * @param heatThen the account when the last trial ended
 * @param heatNow the account when the record was made
 * @param seal the files all of it rests on
 * @param signatures oldest first, held against what is there now
 */
public record Report(
    String folder,
    Instant madeAt,
    @Nullable String madeBy,
    String toolVersion,
    SiteTime site,
    Had<AssetFile> asset,
    Had<EnergisingList> list,
    Had<Readiness> readiness,
    List<ReportTrial> trials,
    @Nullable String gone,
    Standing standing,
    Had<HeatView> heatThen,
    Had<HeatView> heatNow,
    Had<Seal> seal,
    Had<List<SignatureCheck>> signatures) {
  public Report {
    trials = List.copyOf(trials);
  }

  /** The same with other signatures. */
  public Report with(Had<List<SignatureCheck>> others) {
    return new Report(
        folder,
        madeAt,
        madeBy,
        toolVersion,
        site,
        asset,
        list,
        readiness,
        trials,
        gone,
        standing,
        heatThen,
        heatNow,
        seal,
        others);
  }

  /** The asset's name, or the folder's where the sheet cannot be read. */
  public String title() {
    AssetFile file = asset.value();
    return file == null ? folder : file.asset().name();
  }

  /** What a fault of a file keeps out of the record; one line each, none twice. */
  public List<String> faults() {
    List<String> faults = new ArrayList<>();
    if (gone != null) {
      faults.add(gone);
    }
    for (Had<?> part : List.of(asset, list, readiness, heatThen, heatNow, seal, signatures)) {
      if (part.fault() && !faults.contains(part.reason())) {
        faults.add(part.reason());
      }
    }
    for (ReportTrial trial : trials) {
      if (trial.entry() instanceof FailedTrial failed && !faults.contains(failed.error())) {
        faults.add(failed.error());
      }
    }
    return faults;
  }

  /** The trial that decides how the record stands; null where there is none. */
  public @Nullable ReportTrial decisive() {
    for (ReportTrial trial : trials) {
      if (trial.name().equals(standing.trial())) {
        return trial;
      }
    }
    return null;
  }

  /** What stands against signing; empty where nothing does. */
  public List<String> against() {
    List<String> against = new ArrayList<>();
    EnergisingList checks = list.value();
    if (checks == null) {
      against.add("the list before energising cannot be read");
    } else if (checks.open() > 0) {
      against.add(
          checks.open() + " of " + checks.items().size() + " checks before energising are open");
    }
    int faults = faults().size();
    if (faults > 0) {
      against.add(faults + (faults == 1 ? " fault" : " faults") + " of files, named in the record");
    }
    if (standing.state() != Standing.State.ACCEPTED) {
      against.add(standing.state().key() + ": " + standing.sentence());
    }
    return against;
  }
}
