package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import rampwright.analysis.quantity.Measured;
import rampwright.app.envelope.FigureKey;
import rampwright.app.wording.InstantWords;
import rampwright.app.wording.ValueText;

/** Instants and figures of a start or a stop, and what was not to be had. */
final class FoundSection {
  private FoundSection() {}

  static RecordModel.Found of(
      String anchor, Map<String, Measured> instants, Map<String, Measured> figures) {
    List<RecordModel.Figure> at = new ArrayList<>();
    List<RecordModel.Figure> values = new ArrayList<>();
    Map<String, List<String>> labelsOfReason = new LinkedHashMap<>();
    instants.forEach(
        (key, one) -> {
          Double value = one.value();
          if (value == null) {
            missing(labelsOfReason, one, InstantWords.label(key));
          } else {
            at.add(figure(anchor + key, InstantWords.label(key), ValueText.timeS(value), "s", one));
          }
        });
    figures.forEach(
        (key, one) -> {
          Double value = one.value();
          if (value == null) {
            missing(labelsOfReason, one, FigureKey.labelOf(key));
          } else {
            values.add(
                figure(
                    anchor + key,
                    FigureKey.labelOf(key),
                    ValueText.value(value, one.uncertainty()),
                    one.unit(),
                    one));
          }
        });
    List<RecordModel.Pair> missing = new ArrayList<>();
    labelsOfReason.forEach(
        (why, labels) -> missing.add(new RecordModel.Pair(why, String.join(", ", labels))));
    return new RecordModel.Found(at, values, missing);
  }

  private static void missing(Map<String, List<String>> into, Measured one, String label) {
    String why = one.why();
    into.computeIfAbsent(why == null ? "" : why, key -> new ArrayList<>()).add(label);
  }

  private static RecordModel.Figure figure(
      String anchor, String label, String value, String unit, Measured one) {
    Double from = one.fromS();
    Double to = one.toS();
    String rule = one.rule();
    List<String> more = new ArrayList<>();
    if (one.phases().size() > 1) {
      one.phases()
          .forEach((phase, of) -> more.add(phase + " " + ValueText.value(of, one.uncertainty())));
    } else if (one.phase() != null) {
      more.add(one.phase());
    }
    one.parts()
        .forEach(
            (name, of) ->
                more.add(name.replace('_', ' ') + " " + ValueText.value(of, one.uncertainty())));
    return new RecordModel.Figure(
        anchor,
        label,
        value,
        ValueText.uncertainty(one.uncertainty()),
        unit,
        String.join(", ", more),
        from == null || to == null
            ? ""
            : ValueText.timeS(from) + " to " + ValueText.timeS(to) + " s",
        rule == null ? "" : rule);
  }
}
