package rampwright.app.json;

import org.jspecify.annotations.Nullable;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.ready.ReadyLine;

/** Readiness, and the list before energising, as JSON. */
public final class ReadyJson {
  private ReadyJson() {}

  /** The whole text. */
  public static String readiness(Readiness readiness) {
    return new JsonText().object(out -> body(out, readiness)).finish();
  }

  static void body(JsonText out, Readiness readiness) {
    out.array(
        "lines", array -> readiness.lines().forEach(line -> array.object(b -> line(b, line))));
    out.number("starts_per_hour", readiness.startsPerHour());
    out.number("rest_s", readiness.restS());
    out.text("basis", readiness.basis());
    out.text("settings_from", readiness.settingsFrom());
  }

  private static void line(JsonText json, ReadyLine line) {
    json.text("part", line.part().title());
    json.text("check", line.check());
    json.text("state", line.state().key());
    json.text("text", line.text());
    json.text("source", line.source());
  }

  /** The list with its ticks. */
  public static String list(EnergisingList list) {
    return new JsonText().object(out -> body(out, list)).finish();
  }

  static void body(JsonText out, EnergisingList list) {
    out.texts("cautions", EnergisingList.CAUTIONS);
    out.array(
        "checks",
        array -> {
          for (EnergisingList.Item item : list.items()) {
            array.object(b -> item(b, item, list.tick(item.number())));
          }
        });
    out.count("open", list.open());
  }

  private static void item(
      JsonText json, EnergisingList.Item item, EnergisingList.@Nullable Tick tick) {
    json.count("number", item.number());
    json.text("about", item.about());
    json.text("text", item.text());
    json.text("by", tick == null ? null : tick.by());
    json.text("at", tick == null ? null : tick.at().toString());
    json.text("note", tick == null ? null : tick.note());
  }
}
