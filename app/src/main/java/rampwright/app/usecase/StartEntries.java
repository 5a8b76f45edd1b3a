package rampwright.app.usecase;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.Asset;
import rampwright.app.asset.AssetFile;
import rampwright.app.envelope.Limit;
import rampwright.app.logbook.AssetLimit;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

/** Starts on their way into a logbook, with their assets' limits and what is wrong with others. */
final class StartEntries {
  private final List<LogEntry> entries = new ArrayList<>();
  private final Map<String, Asset> assets = new LinkedHashMap<>();
  private final List<String> rejected = new ArrayList<>();
  private final Map<String, Integer> bases = new LinkedHashMap<>();
  private final InputChoice choice;
  private int startless;

  /**
   * None yet.
   *
   * @param choice how the trials are read
   */
  StartEntries(InputChoice choice) {
    this.choice = choice;
  }

  /**
   * Takes what came of a trial; what cannot be entered is among the rejected.
   *
   * @param basis hash of what it rests on; empty for none
   */
  void take(Entry entry, String basis) {
    if (entry instanceof FailedTrial failed) {
      rejected.add(failed.error());
      return;
    }
    try {
      List<LogEntry> logged = LoggedTrials.of(entry, choice);
      if (logged.isEmpty()) {
        startless++;
        rejected.add(entry.file() + ": holds no start");
      }
      entries.addAll(logged);
      if (!basis.isEmpty() && !logged.isEmpty()) {
        bases.put(basis, logged.size());
      }
      AssetFile asset =
          entry instanceof TrialResult result
              ? result.asset()
              : entry instanceof NotedTrial noted ? noted.asset() : null;
      if (asset != null) {
        assets.put(asset.asset().id(), asset.asset());
      }
    } catch (InputProblem e) {
      rejected.add(String.valueOf(e.getMessage()));
    }
  }

  void reject(List<String> lines) {
    rejected.addAll(lines);
  }

  List<String> rejected() {
    return rejected;
  }

  /** Whether all that was rejected could be read and holds no start. */
  boolean hasOnlyStartless() {
    return startless == rejected.size();
  }

  boolean isEmpty() {
    return entries.isEmpty();
  }

  /** Enters everything taken. */
  Logbook.Appended enter(Logbook book) throws LogbookException {
    for (Asset asset : assets.values()) {
      limits(book, asset);
      NotedFacts.note(book, asset);
    }
    return book.append(entries, bases);
  }

  /** Enters everything taken, without the limits: those of today hold, not those of the trial. */
  Logbook.Appended enterAlone(Logbook book) throws LogbookException {
    return book.append(entries, bases);
  }

  /**
   * The envelope's limits go along, so that a trend knows them without the folder; one that the
   * envelope no longer has is noted as none.
   */
  private static void limits(Logbook book, Asset asset) throws LogbookException {
    Map<String, AssetLimit> present = book.limits(asset.id());
    Map<String, AssetLimit> gone = new LinkedHashMap<>(present);
    for (Limit limit : asset.envelope().limits()) {
      AssetLimit noted =
          new AssetLimit(
              asset.id(), limit.figure().key(), optional(limit.min()), optional(limit.max()));
      gone.remove(noted.figure());
      if (!noted.equals(present.get(noted.figure()))) {
        book.append(noted);
      }
    }
    for (AssetLimit limit : gone.values()) {
      if (limit.min().isPresent() || limit.max().isPresent()) {
        book.append(
            new AssetLimit(
                asset.id(), limit.figure(), OptionalDouble.empty(), OptionalDouble.empty()));
      }
    }
  }

  private static OptionalDouble optional(@Nullable Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
