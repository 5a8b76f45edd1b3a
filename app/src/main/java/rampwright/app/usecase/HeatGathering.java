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
import rampwright.app.asset.SiteTime;
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

  private static final String NOTED = "noted by ";

  private final TrialReader reader;
  private final AssetFile asset;
  private final HeatBook before;
  private final HeatBook book;
  private final ClockCheck.Checked clock;
  private final Instant asked;
  private final SiteTime site;
  private final List<String> remarks;
  private final Instant oldest;

  /**
   * A gathering.
   *
   * @param before the book as it was kept
   * @param clock the same on the clock of now
   * @param asked the moment asked about
   * @param remarks what a person should know is added here
   */
  HeatGathering(
      TrialReader reader,
      AssetFile asset,
      HeatBook before,
      ClockCheck.Checked clock,
      Instant asked,
      List<String> remarks)
      throws InputProblem {
    this.reader = reader;
    this.asset = asset;
    this.before = before;
    this.book = clock.book();
    this.clock = clock;
    this.asked = asked;
    this.site = SiteTime.of(asset.asset());
    this.remarks = remarks;
    this.oldest = asked.minusSeconds((long) forgetS(asset));
  }

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
        entries.put(name, unknown(name, 0, clock.now(), clock.now(), NOT_READ));
      }
    }
    for (HeatBook.Entry kept : book.traces()) {
      if (!entries.containsKey(kept.trial()) && book.onClockOfNow(kept).end().isAfter(oldest)) {
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
    HeatBook.Entry kept = book.entry(name);
    if (!last && declared != null) {
      Instant at =
          book.onClockOfNow(declared.at(), kept == null ? steps(declared.at()) : kept.clock());
      if (at.plus(LONGEST_TRACE).isBefore(oldest)) {
        return null;
      }
    }
    Path trace = job.trace();
    if (trace == null || job.problem() != null) {
      Instant at = declared == null ? clock.now() : declared.at();
      if (at.isBefore(oldest)) {
        return null;
      }
      remarks.add("trial " + name + ": no trace" + WHOLE);
      return unknown(name, 0, at, at, declared == null ? "first seen" : declared.datedBy());
    }
    long bytes = Files.size(trace);
    Instant modified = Files.getLastModifiedTime(trace).toInstant().truncatedTo(ChronoUnit.MILLIS);
    boolean wasRead = kept != null && !kept.datedBy().equals(NOT_READ);
    if (kept != null && wasRead && kept.bytes() == bytes && kept.modified().equals(modified)) {
      return redated(kept, declared);
    }
    try {
      TrialReader.Read read = reader.read(job, trace, false);
      HeatStretch stretch = read.result().heat();
      if (stretch == null) {
        return unknown(name, bytes, modified, clock.now(), NOT_READ);
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
        ? kept.dated(declared.at(), declared.datedBy())
        : kept;
  }

  private int steps(Instant dated) {
    return ClockCheck.stepsKnown(before, book, dated, clock.now());
  }

  /** A trace that is met for the first time; dated after now, it ended no later than now. */
  private HeatBook.Entry placed(HeatBook.Entry found) {
    HeatBook.Entry kept = book.entry(found.trial());
    HeatBook.Entry entry = found.keptAt(kept == null ? steps(found.at()) : kept.clock());
    Instant at = book.onClockOfNow(entry).at();
    if (!at.isAfter(clock.now().plus(ClockCheck.SLACK))) {
      return entry;
    }
    remarks.add(
        "trial "
            + entry.trial()
            + " is dated "
            + site.text(at)
            + ", later than now; it counts as just ended. Correct its date in settings.toml and take its"
            + " [[trace]] out of heat.toml");
    long lastsMs = Math.round(1000 * entry.stretch().lastsS());
    return entry.dated(clock.now().minusMillis(lastsMs), "first seen").keptAt(book.steps().size());
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

  /** The book with these traces, as it is to be kept; what has cooled away is left out. */
  HeatBook kept(List<HeatBook.Entry> entries) {
    HeatBook after = book.with(entries);
    List<HeatBook.Noted> noted = new ArrayList<>(after.noted());
    noted.removeIf(one -> stopped(one).isBefore(oldest) && one.stoppedAt() != null);
    return clock.kept(
        new HeatBook(
            after.lastSeen(),
            after.mark(),
            after.opened(),
            after.steps(),
            after.cold(),
            noted,
            after.early(),
            after.traces()));
  }

  private Instant stopped(HeatBook.Noted one) {
    Instant stopped = one.stoppedAt();
    return book.onClockOfNow(stopped == null ? one.at() : stopped, one.clock());
  }

  /** The account of traces at the moment asked about. */
  HeatResult result(List<HeatBook.Entry> entries, List<HeatPiece> expected) throws InputProblem {
    List<HeatBook.Entry> count =
        entries.stream()
            .map(book::onClockOfNow)
            .filter(entry -> !entry.at().isAfter(asked))
            .toList();
    HeatSheet sheet = sheet(asset, expected);
    List<HeatHistory.Dated> dated = new ArrayList<>();
    Map<String, String> datedBy = new HashMap<>();
    boolean fresh = count.stream().anyMatch(entry -> entry.end().isAfter(oldest));
    for (HeatBook.Entry entry : count) {
      dated.add(new HeatHistory.Dated(entry.trial(), second(entry.at()), entry.stretch(), true));
      datedBy.put(entry.trial(), entry.datedBy());
    }
    for (int k = 0; k < book.noted().size(); k++) {
      HeatBook.Noted one = book.noted().get(k);
      Instant at = book.onClockOfNow(one.at(), one.clock());
      if (!at.isAfter(asked)) {
        String name = "no record " + (k + 1);
        dated.add(new HeatHistory.Dated(name, second(at), stretch(one, sheet), false));
        datedBy.put(name, NOTED + one.by());
        fresh |= stopped(one).isAfter(oldest);
        remarks.add(told(one, at));
      }
    }
    if (!dated.isEmpty() && !fresh) {
      remarks.add(
          "the last record is older than "
              + Duration.between(oldest, asked).toHours()
              + " h: what the motor did since is not known");
    }
    for (HeatBook.Early early : book.early()) {
      if (early.at().isAfter(oldest) && !early.at().isAfter(asked)) {
        remarks.add(
            "armed before its time at "
                + site.text(early.at())
                + " (ruled by "
                + early.ruledBy()
                + "): "
                + early.reason());
      }
    }
    remarks.addAll(ClockCheck.remarks(kept(entries), folder()));
    if (clock.blind() && !dated.isEmpty()) {
      remarks.add(
          "this computer does not tell how long it has been on: a clock set forward would shorten the"
              + " wait; look at date and time above");
    }
    List<Double> coldAt =
        book.cold().stream().map(one -> second(book.onClockOfNow(one.at(), one.clock()))).toList();
    HeatBook.Opened opened = book.opened();
    double openedS =
        opened == null
            ? Double.POSITIVE_INFINITY
            : second(book.onClockOfNow(opened.at(), opened.clock()));
    HeatStanding standing =
        HeatAccount.at(sheet.plan(), new HeatHistory(dated, coldAt, forgetS(asset), openedS), 0);
    List<String> all = new ArrayList<>(remarks);
    all.addAll(sheet.remarks());
    return new HeatResult(asset, site, asked, standing, datedBy, all);
  }

  private String folder() {
    Path folder = asset.path().getParent();
    return folder == null ? "." : folder.toString();
  }

  /** A start told by a person, as pieces; what he did not know is taken at the worst. */
  static HeatStretch stretch(HeatBook.Noted one, HeatSheet sheet) {
    Double lastedS = one.lastedS();
    Double ratio = one.ratio();
    double amps = ratio != null ? ratio : sheet.plan().motor().lockedRatio();
    double square = lastedS == null ? 1 : amps * amps;
    double startS = lastedS == null ? 1 : lastedS;
    List<HeatPiece> pieces = new ArrayList<>();
    pieces.add(new HeatPiece(startS, HeatPiece.State.SLIP, square, square));
    Instant stopped = one.stoppedAt();
    if (stopped != null) {
      double ranS = Duration.between(one.at(), stopped).toMillis() / 1000.0 - startS;
      pieces.add(new HeatPiece(Math.max(0, ranS), HeatPiece.State.RUN, 1, 1));
    }
    return new HeatStretch(
        pieces,
        List.of(new HeatStretch.Start(0, 1, "not recorded", lastedS == null)),
        stopped == null,
        1);
  }

  private String told(HeatBook.Noted one, Instant at) {
    Double lastedS = one.lastedS();
    Double ratio = one.ratio();
    return "start told by "
        + one.by()
        + ", not measured: "
        + (one.timeKnown() ? "at " : "moment not known, taken as ")
        + site.text(at)
        + (lastedS == null
            ? ", length not known, takes the whole hot allowance"
            : ", "
                + Math.round(lastedS)
                + " s at "
                + (ratio == null ? "locked-rotor current" : ratio + " x rated"))
        + (one.stoppedAt() == null
            ? "; taken to have run at rated load until the next record or now"
            : "");
  }

  private double second(Instant at) {
    return Duration.between(asked, at).toMillis() / 1000.0;
  }
}
