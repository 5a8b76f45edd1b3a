package rampwright.app.usecase;

import static rampwright.app.asset.AssetFolders.ASSET;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatAccount;
import rampwright.analysis.heat.HeatHistory;
import rampwright.analysis.heat.HeatPiece;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.heat.HeatStretch;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.TrialFile;
import rampwright.app.heat.HeatBook;
import rampwright.app.heat.HeatSheet;
import rampwright.app.result.HeatResult;

/** Gathers the traces of an asset folder that an account at a moment needs, and dates them. */
final class HeatGathering {
  /**
   * What is older has cooled away, however slow the motor, and says nothing of what it did since:
   * twelve of the slowest constants, at least a day.
   */
  private static final double CONSTANTS_KEPT = 12;

  private static final String WHOLE =
      "; counted as one start that takes the whole hot allowance (if no start was made, move its folder"
          + " out of trials and take its [[trace]] out of heat.toml)";

  private static final String NOT_READ = "not read";

  /** However old, so many last trials say what a start takes. */
  private static final int LAST_TRIALS = 3;

  private static final Duration LEAST_KEPT = Duration.ofHours(24);
  private static final Duration LONGEST_TRACE = Duration.ofHours(6);
  private static final Duration SLACK = Duration.ofSeconds(2);

  private final TrialReader reader;
  private final AssetFile asset;
  private final HeatBook book;
  private final Moment moment;
  private final List<String> remarks;
  private final Instant oldest;

  /**
   * A gathering.
   *
   * @param moment the moment asked about
   * @param remarks what a person should know is added here
   */
  HeatGathering(
      TrialReader reader, AssetFile asset, HeatBook book, Moment moment, List<String> remarks)
      throws InputProblem {
    this.reader = reader;
    this.asset = asset;
    this.book = book;
    this.moment = moment;
    this.remarks = remarks;
    this.oldest = moment.asked().minusSeconds((long) forgetS(asset));
  }

  /**
   * When it is.
   *
   * @param now the account's time
   * @param clockBehind whether the clock is behind it, so that dates of new traces mean nothing
   * @param asked the moment asked about: now, or another
   */
  record Moment(Instant now, boolean clockBehind, Instant asked) {}

  /** How long a record is good for, s. */
  static double forgetS(AssetFile asset) throws InputProblem {
    double slowestS = sheet(asset, List.of()).plan().motor().coolingS().high();
    return Math.max(CONSTANTS_KEPT * slowestS, (double) LEAST_KEPT.toSeconds());
  }

  private static HeatSheet sheet(AssetFile asset, List<HeatPiece> expected) throws InputProblem {
    try {
      return HeatSheet.of(asset.asset(), expected);
    } catch (IllegalArgumentException e) {
      throw new InputProblem(asset.path() + ": " + e.getMessage());
    }
  }

  /** Every trace that counts and the last few, oldest first. */
  List<HeatBook.Entry> entries(List<TrialJob> jobs) {
    Map<String, HeatBook.Entry> entries = new HashMap<>();
    for (int k = 0; k < jobs.size(); k++) {
      TrialJob job = jobs.get(k);
      boolean last = k >= jobs.size() - LAST_TRIALS;
      if (job.problem() != null && asset.path().equals(Path.of(job.shown()).resolve(ASSET))) {
        // The folder has no trials yet.
        continue;
      }
      String name = nameOf(job);
      try {
        HeatBook.Entry entry = entry(job, name, last);
        if (entry != null) {
          entries.put(name, entry);
        }
      } catch (IOException e) {
        remarks.add(InputProblem.of(e, Path.of(job.shown())).getMessage());
        entries.put(name, unknown(name, 0, moment.now(), moment.now(), NOT_READ));
      }
    }
    for (HeatBook.Entry kept : book.traces()) {
      if (!entries.containsKey(kept.trial()) && kept.end().isAfter(oldest)) {
        entries.put(kept.trial(), kept);
        if (jobs.stream().noneMatch(job -> nameOf(job).equals(kept.trial()))) {
          remarks.add(
              "trial " + kept.trial() + " is no longer in the folder; its heat still counts");
        }
      }
    }
    return entries.values().stream()
        .sorted(Comparator.comparing(HeatBook.Entry::at).thenComparing(HeatBook.Entry::trial))
        .toList();
  }

  private HeatBook.@Nullable Entry entry(TrialJob job, String name, boolean last)
      throws IOException {
    TrialFile trial;
    try {
      trial = reader.trialFile(job.settingsFile());
    } catch (InputProblem e) {
      remarks.add(String.valueOf(e.getMessage()));
      trial = TrialFile.NONE;
    }
    TrialDates.Date declared = TrialDates.declared(name, trial);
    if (!last && declared != null && declared.at().plus(LONGEST_TRACE).isBefore(oldest)) {
      return null;
    }
    Path trace = job.trace();
    if (trace == null || job.problem() != null) {
      Instant at = declared == null ? moment.now() : declared.at();
      if (at.isBefore(oldest)) {
        return null;
      }
      remarks.add("trial " + name + ": no trace" + WHOLE);
      return unknown(name, 0, at, at, declared == null ? "first seen" : declared.datedBy());
    }
    long bytes = Files.size(trace);
    Instant modified = Files.getLastModifiedTime(trace).toInstant().truncatedTo(ChronoUnit.MILLIS);
    HeatBook.Entry kept = book.entry(name);
    boolean wasRead = kept != null && !kept.datedBy().equals(NOT_READ);
    if (kept != null && wasRead && kept.bytes() == bytes && kept.modified().equals(modified)) {
      return redated(kept, declared);
    }
    try {
      TrialReader.Read read = reader.read(job, trace, false);
      HeatStretch stretch = read.result().heat();
      if (stretch == null) {
        return unknown(name, bytes, modified, moment.now(), NOT_READ);
      }
      TrialDates.Date date = declared != null ? declared : TrialDates.ofTrace(read.trace());
      if (date == null) {
        date = TrialDates.ofFile(trace, stretch.lastsS());
        remarks.add(
            "trial " + name + " has no date; taken to have ended when its file was written");
      }
      return placed(new HeatBook.Entry(name, bytes, modified, date.at(), date.datedBy(), stretch));
    } catch (InputProblem e) {
      remarks.add(e.getMessage() + WHOLE);
      Instant at = declared == null ? modified : declared.at();
      return placed(unknown(name, bytes, modified, at, NOT_READ));
    }
  }

  /** A kept trace follows a date that a person put right later. */
  private static HeatBook.Entry redated(HeatBook.Entry kept, TrialDates.@Nullable Date declared) {
    boolean byPerson = declared != null && declared.datedBy().equals("settings.toml");
    boolean frozen = kept.datedBy().equals("first seen");
    return byPerson && declared != null && !frozen
        ? new HeatBook.Entry(
            kept.trial(),
            kept.bytes(),
            kept.modified(),
            declared.at(),
            declared.datedBy(),
            kept.stretch())
        : kept;
  }

  /** A trace dated after now, or found while the clock is behind, ended no later than now. */
  private HeatBook.Entry placed(HeatBook.Entry entry) {
    boolean future = entry.at().isAfter(moment.now().plus(SLACK));
    if (!future && !moment.clockBehind()) {
      return entry;
    }
    remarks.add(
        "trial "
            + entry.trial()
            + " is dated "
            + seconds(entry.at())
            + (future ? ", later than now" : " by a clock that was set back")
            + "; it counts as just ended. Correct its date in "
            + "settings.toml and take its [[trace]] out of heat.toml");
    long lastsMs = Math.round(1000 * entry.stretch().lastsS());
    return new HeatBook.Entry(
        entry.trial(),
        entry.bytes(),
        entry.modified(),
        moment.now().minusMillis(lastsMs),
        "first seen",
        entry.stretch());
  }

  /** A start nothing is known of: it takes the whole hot allowance. */
  private static HeatBook.Entry unknown(
      String name, long bytes, Instant modified, Instant at, String datedBy) {
    return new HeatBook.Entry(
        name,
        bytes,
        modified,
        at,
        datedBy,
        new HeatStretch(
            List.of(
                new HeatPiece(1, HeatPiece.State.SLIP, 1, 1),
                new HeatPiece(1, HeatPiece.State.REST, 0, 0)),
            List.of(new HeatStretch.Start(0, 1, datedBy, true)),
            false,
            0));
  }

  static String nameOf(TrialJob job) {
    Path shown = job.trace() != null ? job.trace() : Path.of(job.shown());
    Path parent = shown.toAbsolutePath().normalize().getParent();
    return parent == null || parent.getFileName() == null
        ? job.shown()
        : parent.getFileName().toString();
  }

  /** The account of traces at the moment asked about. */
  HeatResult result(List<HeatBook.Entry> entries, List<HeatPiece> expected) throws InputProblem {
    List<HeatBook.Entry> count =
        entries.stream().filter(entry -> !entry.at().isAfter(moment.asked())).toList();
    if (!count.isEmpty() && count.stream().noneMatch(entry -> entry.end().isAfter(oldest))) {
      remarks.add(
          "the last record is older than "
              + Duration.between(oldest, moment.asked()).toHours()
              + " h: what the motor did since is not known");
    }
    for (HeatBook.Early early : book.early()) {
      if (early.at().isAfter(oldest) && !early.at().isAfter(moment.asked())) {
        remarks.add(
            "armed before its time at "
                + seconds(early.at())
                + " (ruled by "
                + early.ruledBy()
                + "): "
                + early.reason());
      }
    }
    HeatSheet sheet = sheet(asset, expected);
    List<HeatHistory.Dated> dated = new ArrayList<>();
    Map<String, String> datedBy = new HashMap<>();
    for (HeatBook.Entry entry : count) {
      dated.add(new HeatHistory.Dated(entry.trial(), second(entry.at()), entry.stretch()));
      datedBy.put(entry.trial(), entry.datedBy());
    }
    List<Double> coldAt = book.cold().stream().map(one -> second(one.at())).toList();
    HeatStanding standing =
        HeatAccount.at(sheet.plan(), new HeatHistory(dated, coldAt, forgetS(asset)), 0);
    List<String> all = new ArrayList<>(remarks);
    all.addAll(sheet.remarks());
    return new HeatResult(asset, moment.asked(), standing, datedBy, all);
  }

  private double second(Instant at) {
    return Duration.between(moment.asked(), at).toMillis() / 1000.0;
  }

  static String seconds(Instant at) {
    return at.truncatedTo(ChronoUnit.SECONDS).toString();
  }
}
