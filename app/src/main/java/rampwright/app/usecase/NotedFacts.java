package rampwright.app.usecase;

import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import rampwright.app.asset.Asset;
import rampwright.app.logbook.LogEvent;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.logbook.StartColumns;
import rampwright.app.trend.AssetFacts;
import rampwright.app.trend.Mark;

/** From what was noted of an asset to what is shown of it. */
final class NotedFacts {
  /** Author of what comes from an asset's file; a person's later word goes before it. */
  private static final String ASSET_FILE = "asset.toml";

  private NotedFacts() {}

  /** Name, group and zone as last noted; the notes before them stay in the logbook. */
  static AssetFacts of(List<LogEvent> events) {
    String name = last(events, LogEvent.Kind.NAME);
    String group = last(events, LogEvent.Kind.GROUP);
    return new AssetFacts(
        name, group, zone(last(events, LogEvent.Kind.ZONE)).orElse(AssetFacts.NONE.zone()));
  }

  private static String last(List<LogEvent> events, LogEvent.Kind kind) {
    String text = "";
    for (LogEvent event : events) {
      text = event.kind() == kind ? event.text().strip() : text;
    }
    return text;
  }

  /** Name and zone of an asset's file go along, unless they are as last noted from there. */
  static void note(Logbook book, Asset asset) throws LogbookException {
    List<LogEvent> events = book.events(asset.id());
    String name = asset.name().equals(asset.id()) ? "" : asset.name();
    String zone = asset.zone() == null ? "" : String.valueOf(asset.zone());
    note(book, events, asset.id(), LogEvent.Kind.NAME, name);
    note(book, events, asset.id(), LogEvent.Kind.ZONE, zone);
  }

  private static void note(
      Logbook book, List<LogEvent> events, String asset, LogEvent.Kind kind, String text)
      throws LogbookException {
    List<LogEvent> fromThere =
        events.stream().filter(event -> event.author().equals(ASSET_FILE)).toList();
    if (!text.isBlank() && !text.strip().equals(last(fromThere, kind))) {
      book.append(new LogEvent(asset, book.now(), kind, text.strip(), ASSET_FILE));
    }
  }

  /** A zone by its name, such as {@code Etc/UTC} or {@code +05:45}. */
  static Optional<ZoneId> zone(String name) {
    try {
      return name.isBlank() ? Optional.empty() : Optional.of(ZoneId.of(name.strip()));
    } catch (DateTimeException unknown) {
      return Optional.empty();
    }
  }

  /** Changes of settings and work on the machine, in order of time. */
  static List<Mark> marks(StartColumns starts, List<LogEvent> events) {
    List<Mark> marks = new ArrayList<>();
    List<String> settings = starts.settings();
    for (int i = 1; i < starts.size(); i++) {
      if (!settings.get(i).equals(settings.get(i - 1))) {
        marks.add(new Mark(starts.at().get(i), Mark.Kind.SETTINGS, settings.get(i), ""));
      }
    }
    for (LogEvent event : events) {
      if (event.kind() == LogEvent.Kind.WORK) {
        marks.add(
            new Mark(event.at(), Mark.Kind.WORK, event.text(), event.author(), event.loggedAt()));
      }
    }
    marks.sort(Comparator.comparing(Mark::at));
    return marks;
  }
}
