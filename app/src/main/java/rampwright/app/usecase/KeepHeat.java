package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
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
 * <p>The account's time never runs backwards: where the clock is behind the latest moment the
 * account has seen, that moment counts and no cooling is credited until the clock has caught up.
 */
public final class KeepHeat {
  /** Clocks of recorder and reader may differ by so much without a word. */
  private static final Duration SLACK = Duration.ofSeconds(2);

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
    if (by.isBlank()) {
      throw new UsageProblem("--by: a word that the motor was cold needs a name");
    }
    if (moment.isAfter(clock.instant().plus(SLACK))) {
      throw new UsageProblem(
          "--cold-at " + moment + " is later than now; name the moment it was seen to be cold");
    }
    HeatBook book = book(folder);
    List<HeatBook.Cold> cold = new ArrayList<>(book.cold());
    cold.add(new HeatBook.Cold(moment, by.strip()));
    write(folder, new HeatBook(book.lastSeen(), cold, book.early(), book.traces()));
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
    HeatBook book = book(folder);
    List<HeatBook.Early> early = new ArrayList<>(book.early());
    var ruledBy = asked.result().standing().ruledBy();
    early.add(
        new HeatBook.Early(
            asked.result().asOf(),
            reason.strip(),
            asked.result().standing().waitS(),
            ruledBy == null ? "nothing" : ruledBy.key()));
    write(folder, new HeatBook(book.lastSeen(), book.cold(), early, book.traces()));
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
    HeatBook book = book(folder);
    List<String> remarks = new ArrayList<>();
    Instant told = clock.instant();
    Instant seen = book.lastSeen();
    boolean behind = seen != null && told.isBefore(seen.minus(SLACK));
    Instant now =
        (seen != null && told.isBefore(seen) ? seen : told).truncatedTo(ChronoUnit.MILLIS);
    if (behind) {
      remarks.add(
          "the clock says "
              + HeatGathering.seconds(told)
              + ", before "
              + HeatGathering.seconds(now)
              + " when this account was last asked: set back? No cooling is credited until it has"
              + " caught up; if the earlier time was the wrong one, correct last_seen in "
              + HeatBookFile.NAME);
    }
    Instant asked = moment == null ? now : moment;
    HeatGathering gathering =
        new HeatGathering(
            reader, asset, book, new HeatGathering.Moment(now, behind, asked), remarks);
    List<HeatBook.Entry> entries = gathering.entries(FindTrials.ofAsset(folder));
    if (keep) {
      HeatBook after = new HeatBook(now, book.cold(), book.early(), entries);
      try {
        HeatBookFile.write(folder, after);
      } catch (IOException e) {
        remarks.add("the account was not kept: " + InputProblem.of(e, folder).getMessage());
      }
    }
    return gathering.result(entries, expected);
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

  private static void write(Path folder, HeatBook book) throws InputProblem {
    try {
      HeatBookFile.write(folder, book);
    } catch (IOException e) {
      throw InputProblem.of(e, folder.resolve(HeatBookFile.NAME));
    }
  }
}
