package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.UpdateLock;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.heat.HeatPiece;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFolders;
import rampwright.app.heat.HeatBook;
import rampwright.app.heat.HeatBookFile;
import rampwright.app.result.HeatResult;

/**
 * Keeps the heat account of an asset folder: reads what its trials' traces add, says how the motor
 * circuit stands, and keeps {@code heat.toml}.
 *
 * <p>Only time that is known to have passed cools: {@link ClockCheck}.
 */
public final class KeepHeat {
  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final String toolVersion;
  private final InstantSource clock;

  public KeepHeat(TraceFileDoor door, Analyzer analyzer, String toolVersion, InstantSource clock) {
    this.door = door;
    this.analyzer = analyzer;
    this.toolVersion = toolVersion;
    this.clock = clock;
  }

  /**
   * Whether a start may be armed.
   *
   * @param result the account
   * @param allowed whether it may be started now
   */
  public record Arming(HeatResult result, boolean allowed) {}

  /** The account now; kept in the folder. */
  public HeatResult now(Path folder) throws InputProblem, UsageProblem {
    return account(folder, null, true, List.of());
  }

  /** The account now, nothing written. */
  public HeatResult look(Path folder, List<HeatPiece> expected) throws InputProblem, UsageProblem {
    return account(folder, null, false, expected);
  }

  /** The account at another moment, nothing written; what was recorded later is left out. */
  public HeatResult at(Path folder, Instant moment) throws InputProblem, UsageProblem {
    return account(folder, moment, false, List.of());
  }

  /** Notes a person's word that the motor was cold at a moment, then gives the account. */
  public HeatResult noteCold(Path folder, Instant moment, String by)
      throws InputProblem, UsageProblem {
    check(folder);
    String name = PersonsWord.name(by, "a word that the motor was cold");
    if (moment.isAfter(clock.instant().plus(ClockCheck.SLACK))) {
      throw new UsageProblem(
          "--cold-at " + moment + " is later than now; name the moment it was seen to be cold");
    }
    // A step of the clock that nobody met yet must not move a word that is given after it.
    now(folder);
    change(
        folder,
        book -> book.with(new HeatBook.Cold(moment, name, ClockCheck.earliest(book, moment))));
    return now(folder);
  }

  /**
   * Notes a start that nobody recorded, as a person tells it, then gives the account.
   *
   * @param told what is known of it; what is not is taken at the worst within reason
   */
  public HeatResult noteStart(Path folder, NotedStart told) throws InputProblem, UsageProblem {
    check(folder);
    Instant now = clock.instant().truncatedTo(ChronoUnit.SECONDS);
    told.check(now, ClockCheck.SLACK);
    now(folder);
    change(
        folder,
        book -> {
          Instant began = told.at();
          int steps = began == null ? book.steps().size() : ClockCheck.latest(book, began, now);
          return book.with(told.kept(now, steps));
        });
    return now(folder);
  }

  /**
   * Notes a person's word that date and time of this computer are right and were right, so that
   * time which nothing else witnessed counts, then gives the account.
   */
  public HeatResult clockRight(Path folder, String by) throws InputProblem, UsageProblem {
    check(folder);
    String name = PersonsWord.name(by, "a word that the clock is right");
    now(folder);
    boolean[] any = {false};
    change(
        folder,
        book -> {
          List<HeatBook.ClockStep> steps = new ArrayList<>();
          for (HeatBook.ClockStep one : book.steps()) {
            boolean open = !one.witnessed() && one.movedS() > 0 && one.rightBy() == null;
            any[0] |= open;
            steps.add(open ? new HeatBook.ClockStep(one.at(), one.movedS(), false, name) : one);
          }
          return book.withSteps(steps);
        });
    if (!any[0]) {
      throw new UsageProblem("--clock-right: no time of this account rests on the clock alone");
    }
    return now(folder);
  }

  /** Asks before arming. */
  public Arming arming(Path folder) throws InputProblem, UsageProblem {
    HeatResult result = now(folder);
    Double waitS = result.standing().waitS();
    return new Arming(result, waitS != null && waitS <= 0);
  }

  /**
   * Records that a start was armed before its time.
   *
   * @param asked the account's answer it goes against
   */
  public void recordEarly(Path folder, Arming asked, String reason)
      throws InputProblem, UsageProblem {
    if (reason.isBlank()) {
      throw new UsageProblem("--early: arming before the time needs a reason");
    }
    var ruledBy = asked.result().standing().ruledBy();
    HeatBook.Early early =
        new HeatBook.Early(
            asked.result().asOf(),
            PersonsWord.text(reason, "--early"),
            asked.result().standing().waitS(),
            ruledBy == null ? "nothing" : ruledBy.key());
    change(folder, book -> book.with(early));
  }

  private static void check(Path folder) throws UsageProblem {
    if (!Files.isDirectory(folder) || !AssetFolders.isAssetFolder(folder)) {
      throw new UsageProblem(folder + ": is no asset folder; name a folder that holds asset.toml");
    }
  }

  private HeatResult account(
      Path folder, @Nullable Instant moment, boolean keep, List<HeatPiece> expected)
      throws InputProblem, UsageProblem {
    check(folder);
    TrialReader reader = new TrialReader(door, analyzer, toolVersion, InputChoice.DEFAULT);
    AssetFile asset = reader.asset(folder.resolve(AssetFolders.ASSET));
    if (asset == null) {
      throw new UsageProblem(folder + ": is no asset folder");
    }
    List<String> remarks = new ArrayList<>();
    if (!keep) {
      HeatGathering gathering = gathering(reader, asset, book(folder), moment, remarks);
      return gathering.result(gathering.entries(FindTrials.ofAsset(folder)), expected);
    }
    try {
      // Nobody may note a word between reading the book and writing it.
      UpdateLock lock = UpdateLock.of(folder);
      try {
        HeatGathering gathering = gathering(reader, asset, book(folder), moment, remarks);
        List<HeatBook.Entry> entries = gathering.entries(FindTrials.ofAsset(folder));
        HeatBookFile.write(folder, gathering.kept(entries));
        return gathering.result(entries, expected);
      } finally {
        lock.close();
      }
    } catch (IOException e) {
      remarks.clear();
      HeatGathering gathering = gathering(reader, asset, book(folder), moment, remarks);
      remarks.add("the account was not kept: " + InputProblem.of(e, folder).getMessage());
      return gathering.result(gathering.entries(FindTrials.ofAsset(folder)), expected);
    }
  }

  private HeatGathering gathering(
      TrialReader reader,
      AssetFile asset,
      HeatBook book,
      @Nullable Instant moment,
      List<String> remarks)
      throws InputProblem {
    ClockCheck.Checked checked = ClockCheck.of(book, clock);
    return new HeatGathering(
        reader, asset, book, checked, moment == null ? checked.now() : moment, remarks);
  }

  private static HeatBook book(Path folder) throws InputProblem {
    try {
      return HeatBookFile.read(folder);
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, folder.resolve(HeatBookFile.NAME));
    }
  }

  /** Changes the kept book; nobody else does at the same time. */
  private static void change(Path folder, UnaryOperator<HeatBook> change) throws InputProblem {
    try {
      UpdateLock lock = UpdateLock.of(folder);
      try {
        HeatBookFile.write(folder, change.apply(book(folder)));
      } finally {
        lock.close();
      }
    } catch (IOException e) {
      throw InputProblem.of(e, folder.resolve(HeatBookFile.NAME));
    }
  }
}
