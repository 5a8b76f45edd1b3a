package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.record.EndKind;
import rampwright.acquisition.record.RecordPlan;
import rampwright.acquisition.record.Recovery;
import rampwright.acquisition.record.SettingsText;
import rampwright.acquisition.record.TrialSession;
import rampwright.acquisition.record.TriggerKind;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialFiles;
import rampwright.app.asset.TrialNotes;

/** Records a trial of an asset from its devices. */
public final class RecordTrial {
  /** A start of minutes takes a few megabytes; this is room for many. */
  private static final long ENOUGH_BYTES = 200L << 20;

  private static final long LEAST_BYTES = 5L << 20;

  private final DevicePorts ports;

  public RecordTrial(DevicePorts ports) {
    this.ports = ports;
  }

  /**
   * What a person wants.
   *
   * @param folder asset folder
   * @param maps channel maps
   * @param settings what is set on the starter; null for {@code settings.toml} beside the asset
   * @param early why it is armed before the heat account allows it; null when it need not be
   */
  public record Request(
      Path folder,
      List<Path> maps,
      TriggerKind on,
      EndKind until,
      double preS,
      double longestS,
      @Nullable Path settings,
      @Nullable String early) {}

  /**
   * What is ready to be armed.
   *
   * @param asset the asset
   * @param plan how it will be recorded
   * @param remarks what a person should know before; one line each
   * @param early what is kept in the heat account when it is armed; null where it allows the start
   */
  public record Ready(
      AssetFile asset, RecordPlan plan, List<String> remarks, @Nullable Early early) {}

  /**
   * A start that is armed against the heat account.
   *
   * @param folder the asset folder
   * @param asked what the account said
   * @param reason the person's
   */
  public record Early(Path folder, ArmingPermit.Answer asked, String reason) {}

  /**
   * Reads and checks everything; opens no device. Recordings that were cut short are made whole.
   *
   * @throws UsageProblem when the maps cannot tell what is asked, or the heat account says no
   * @throws InputProblem when a file or the disk is at fault
   */
  public Ready prepare(Request wanted) throws InputProblem, UsageProblem {
    List<String> remarks = new ArrayList<>();
    AssetFile asset = asset(wanted.folder());
    List<ChannelMap> maps = ChannelMaps.read(wanted.maps());
    Path trials = wanted.folder().resolve(AssetFolders.TRIALS);
    try {
      remarks.addAll(Recovery.run(trials, true).said());
    } catch (IOException e) {
      remarks.add(trials + ": a recording that was cut short could not be recovered: " + e);
    }
    room(wanted.folder(), remarks);
    ArmingPermit.Answer permit = ports.permit().ask(wanted.folder());
    String early = permit.allowed() ? null : wanted.early();
    if (early != null) {
      remarks.add("armed before the heat account allows it: " + permit.why());
    } else if (!permit.allowed()) {
      throw new UsageProblem(
          permit.why()
              + "; or arm now with --early REASON, which is kept with the trial and in the account");
    } else if (!permit.why().isEmpty()) {
      remarks.add(permit.why());
    }
    RatedValues rated = RatedValues.of(asset.asset());
    RecordPlan plan =
        new RecordPlan(
            trials,
            maps,
            wanted.on(),
            wanted.until(),
            wanted.preS(),
            wanted.longestS(),
            rated.currentA(),
            rated.speedRpm(),
            settings(wanted, early, remarks),
            List.of("recorded by rampwright"),
            true);
    String lack = TrialSession.lack(plan);
    if (!lack.isEmpty()) {
      throw new UsageProblem(lack);
    }
    return new Ready(
        asset, plan, remarks, early == null ? null : new Early(wanted.folder(), permit, early));
  }

  static AssetFile asset(Path folder) throws InputProblem {
    Path file = folder.resolve(AssetFolders.ASSET);
    try {
      return AssetFiles.read(file);
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    }
  }

  private static void room(Path folder, List<String> remarks) throws InputProblem {
    try {
      long free = Files.getFileStore(folder).getUsableSpace();
      if (free < LEAST_BYTES) {
        throw new InputProblem(
            folder + ": the disk has " + (free >> 20) + " MiB left; make room before a trial");
      }
      if (free < ENOUGH_BYTES) {
        remarks.add("the disk has " + (free >> 20) + " MiB left; make room soon");
      }
    } catch (IOException e) {
      throw InputProblem.of(e, folder);
    }
  }

  private static SettingsText settings(Request wanted, @Nullable String early, List<String> remarks)
      throws InputProblem {
    Path beside = wanted.folder().resolve(AssetFolders.SETTINGS);
    Path chosen = wanted.settings();
    Path file = chosen != null ? chosen : Files.isRegularFile(beside) ? beside : null;
    TrialFile set = TrialFile.NONE;
    if (file == null) {
      remarks.add(
          "what is set on the starter is not known: give --settings FILE, keep it in "
              + beside
              + ", or write it into the trial's settings.toml afterwards");
    } else {
      try {
        set = TrialFiles.read(file);
      } catch (IOException e) {
        throw InputProblem.of(e, file);
      } catch (TomlProblemsException e) {
        throw InputProblem.of(e);
      }
      remarks.add("settings are taken from " + file);
    }
    TrialFile known = set;
    return (at, remark) -> text(known, at, early);
  }

  /** Settings kept beside the asset, read anew for each trial; people change them meanwhile. */
  static SettingsText settingsOf(Path folder) {
    Path beside = folder.resolve(AssetFolders.SETTINGS);
    return (at, remark) -> {
      TrialFile set = TrialFile.NONE;
      if (Files.isRegularFile(beside)) {
        try {
          set = TrialFiles.read(beside);
        } catch (IOException | TomlProblemsException e) {
          return "# the settings could not be read: "
              + String.valueOf(e.getMessage()).replaceAll("\\p{Cntrl}", " ")
              + "\n"
              + text(TrialFile.NONE, at, null);
        }
      }
      return text(set, at, null);
    };
  }

  private static String text(TrialFile set, Instant at, @Nullable String early) {
    String reason = early == null ? "" : "armed before the heat account allowed it: " + early;
    return TrialFiles.text(
        new TrialFile(
            set.settings(),
            new TrialNotes(at, true, reason, Map.of(), ""),
            set.columns(),
            null,
            List.of()));
  }

  /**
   * Arms: from here on devices are read.
   *
   * @param talk gets a line where the heat account could not be told of an early start; the trial's
   *     settings tell it all the same
   */
  public Recording arm(Ready ready, Consumer<String> talk) {
    Early early = ready.early();
    if (early != null) {
      try {
        ports.permit().recordEarly(early.folder(), early.asked(), early.reason());
      } catch (InputProblem | UsageProblem e) {
        talk.accept("the early start is not noted in the heat account: " + e.getMessage());
      }
    }
    return new Recording(ready.plan(), ports);
  }
}
