package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.UpdateLock;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.SiteTime;
import rampwright.app.ready.EnergisingFile;
import rampwright.app.ready.EnergisingList;

/** The list before energising: shows it, ticks a check, takes a tick back. */
public final class TickList {
  private final InstantSource clock;

  public TickList(InstantSource clock) {
    this.clock = clock;
  }

  /** The list of an asset folder. */
  public EnergisingList show(Path folder) throws InputProblem, UsageProblem {
    if (!Files.isDirectory(folder) || !AssetFolders.isAssetFolder(folder)) {
      throw new UsageProblem(folder + ": is no asset folder; name a folder that holds asset.toml");
    }
    try {
      return EnergisingFile.read(folder);
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, folder.resolve(EnergisingFile.NAME));
    }
  }

  /**
   * Ticks a check, or takes its tick back.
   *
   * @param by who; not blank
   * @param note anything to add; null for nothing
   */
  public EnergisingList tick(
      Path folder, int number, String by, @Nullable String note, boolean takeBack)
      throws InputProblem, UsageProblem {
    EnergisingList list = show(folder);
    EnergisingList.Item item =
        list.items().stream().filter(one -> one.number() == number).findFirst().orElse(null);
    if (item == null) {
      throw new UsageProblem(
          "there is no check " + number + "; there are 1 to " + list.items().size());
    }
    EnergisingList.Tick tick =
        new EnergisingList.Tick(
            number,
            item.text(),
            PersonsWord.name(by, "a tick"),
            clock.instant().truncatedTo(ChronoUnit.SECONDS),
            note == null || note.isBlank() ? null : PersonsWord.text(note, "--note"),
            takeBack);
    Path file = folder.resolve(EnergisingFile.NAME);
    try {
      // Two people may tick at once: what the other ticked meanwhile is read first.
      UpdateLock lock = UpdateLock.of(folder);
      try {
        EnergisingList now = show(folder);
        if (takeBack && now.tick(number) == null) {
          throw new UsageProblem(
              "check " + number + " is not ticked; there is nothing to take back");
        }
        EnergisingList after = now.with(tick);
        EnergisingFile.write(folder, after);
        return after;
      } finally {
        lock.close();
      }
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    }
  }

  /** Whose clocks the people of an asset go by; the computer's where its sheet cannot be read. */
  public SiteTime site(Path folder) {
    try {
      return SiteTime.of(AssetFiles.read(folder.resolve(AssetFolders.ASSET)).asset());
    } catch (IOException | TomlProblemsException e) {
      return new SiteTime(ZoneId.systemDefault());
    }
  }
}
