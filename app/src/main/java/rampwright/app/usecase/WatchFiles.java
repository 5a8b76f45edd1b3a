package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.record.EndKind;
import rampwright.acquisition.record.RecordPlan;
import rampwright.acquisition.record.SettingsText;
import rampwright.acquisition.record.TrialSession;
import rampwright.acquisition.record.TriggerKind;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlSection;
import rampwright.acquisition.watch.Station;
import rampwright.acquisition.watch.WatchEngine;
import rampwright.acquisition.watch.WatchLimits;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFolders;

/** Reads the file that says what is watched. Paths in it are taken from its own folder. */
public final class WatchFiles {
  public static final NumberKey WARN_MIB =
      new NumberKey("warn_MiB", "MiB", 1, 1e7, "room on the disk below which it is said", "");
  public static final NumberKey LEAST_MIB =
      new NumberKey(
          "least_MiB", "MiB", 1, 1e7, "room below which the watch's oldest trials are removed", "");
  public static final NumberKey KEEP_NEWEST =
      new NumberKey("keep_newest", "", 1, 1e6, "trials of each asset that are never removed", "");
  public static final NumberKey LOG_MIB =
      new NumberKey("log_MiB", "MiB", 0.1, 1000, "size at which the log is put aside", "");
  public static final NumberKey LOG_KEEP =
      new NumberKey("log_keep", "", 1, 100, "how many logs are kept aside", "");
  public static final NumberKey PRE_S =
      new NumberKey("pre_s", "s", 0, 120, "what belongs to a trial before its begin", "");
  public static final NumberKey LONGEST_S =
      new NumberKey("longest_s", "s", 1, 7200, "how long a trial may last after its begin", "");

  private static final double MIB = 1 << 20;

  private WatchFiles() {}

  /**
   * What is watched.
   *
   * @param status file in which the state is kept
   * @param log file of the log; null for none
   * @param base folder that paths are taken from
   * @param logbook where starts are entered; null where the file does not say, empty for nowhere
   */
  record Plan(
      List<Station> stations,
      WatchLimits limits,
      Path status,
      Path base,
      @Nullable String logbook,
      @Nullable Path log,
      long logBytes,
      int logKeep) {}

  static Plan read(Path path) throws InputProblem, UsageProblem {
    try {
      TomlFile file = TomlFile.read(path);
      Path folder = path.toAbsolutePath().getParent();
      return read(file, folder == null ? Path.of("") : folder);
    } catch (IOException e) {
      throw InputProblem.of(e, path);
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    }
  }

  private static Plan read(TomlFile file, Path base)
      throws TomlProblemsException, InputProblem, UsageProblem {
    TomlSection root = file.root();
    TomlSection watch = root.section("watch");
    double warn = 1000;
    double least = 200;
    int keep = 50;
    double logMib = 10;
    int logKeep = 5;
    String status = "watch-status.json";
    String log = "watch.log";
    String logbook = null;
    if (watch != null) {
      warn = number(watch, WARN_MIB, warn);
      least = number(watch, LEAST_MIB, least);
      keep = (int) number(watch, KEEP_NEWEST, keep);
      logMib = number(watch, LOG_MIB, logMib);
      logKeep = (int) number(watch, LOG_KEEP, logKeep);
      status = text(watch, "status_file", status);
      log = text(watch, "log_file", log);
      logbook = watch.text("logbook");
      watch.finish();
    }
    List<Wanted> wanted = new ArrayList<>();
    for (TomlSection section : root.sections("asset")) {
      wanted.add(wanted(section, base));
    }
    if (wanted.isEmpty()) {
      root.missing("asset", "an [[asset]] for each motor, with its folder and its maps");
    }
    root.finish();
    file.finish();
    List<Station> stations = new ArrayList<>();
    Set<Path> folders = new HashSet<>();
    for (Wanted one : wanted) {
      if (!folders.add(one.folder().normalize())) {
        throw new UsageProblem(one.folder() + ": is watched twice; take one [[asset]] out");
      }
      stations.add(station(one));
    }
    return new Plan(
        stations,
        new WatchLimits(Math.round(warn * MIB), Math.round(least * MIB), keep),
        base.resolve(status),
        base,
        logbook,
        log.isEmpty() ? null : base.resolve(log),
        Math.round(logMib * MIB),
        logKeep);
  }

  private record Wanted(
      Path folder,
      List<Path> maps,
      TriggerKind on,
      EndKind until,
      double preS,
      double longestS,
      int line) {}

  private static Wanted wanted(TomlSection in, Path base) {
    String folder = in.requiredText("folder", "the asset folder");
    List<Path> maps = new ArrayList<>();
    for (TomlSection map : in.sections("map")) {
      maps.add(base.resolve(map.requiredText("file", "a channel map")).normalize());
      map.finish();
    }
    String single = in.text("maps");
    if (single != null) {
      for (String name : single.split(",", -1)) {
        maps.add(base.resolve(name.strip()).normalize());
      }
    }
    if (maps.isEmpty()) {
      in.missing("maps", "the channel maps of its devices, behind commas");
    }
    Map<String, TriggerKind> begins = new TreeMap<>();
    for (TriggerKind kind : List.of(TriggerKind.CURRENT, TriggerKind.SPEED, TriggerKind.RUN)) {
      begins.put(kind.key(), kind);
    }
    Map<String, EndKind> ends = new TreeMap<>();
    for (EndKind kind : EndKind.values()) {
      ends.put(kind.key(), kind);
    }
    TriggerKind on = in.word("on", begins);
    EndKind until = in.word("until", ends);
    double preS = number(in, PRE_S, 5);
    double longestS = number(in, LONGEST_S, 120);
    in.finish();
    return new Wanted(
        base.resolve(folder).normalize(),
        maps,
        on == null ? TriggerKind.CURRENT : on,
        until == null ? EndKind.STOPPED : until,
        preS,
        longestS,
        in.line());
  }

  private static Station station(Wanted one) throws InputProblem, UsageProblem {
    AssetFile asset = RecordTrial.asset(one.folder());
    List<ChannelMap> maps = ChannelMaps.read(one.maps());
    RatedValues rated = RatedValues.of(asset.asset());
    SettingsText settings = RecordTrial.settingsOf(one.folder());
    RecordPlan plan =
        new RecordPlan(
            one.folder().resolve(AssetFolders.TRIALS),
            maps,
            one.on(),
            one.until(),
            one.preS(),
            one.longestS(),
            rated.currentA(),
            rated.speedRpm(),
            settings,
            List.of(WatchEngine.MARK),
            false);
    String lack = TrialSession.lack(plan);
    if (!lack.isEmpty()) {
      throw new UsageProblem(one.folder() + ": " + lack);
    }
    return new Station(asset.asset().name(), plan);
  }

  private static double number(TomlSection in, NumberKey key, double usual) {
    Double value = in.number(key);
    return value == null ? usual : value;
  }

  private static String text(TomlSection in, String key, String usual) {
    String value = in.text(key);
    return value == null ? usual : value;
  }
}
