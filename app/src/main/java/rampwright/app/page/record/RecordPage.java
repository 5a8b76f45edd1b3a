package rampwright.app.page.record;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rampwright.app.asset.AssetFile;
import rampwright.app.page.Steerless;
import rampwright.app.ready.EnergisingList;
import rampwright.app.report.Report;
import rampwright.app.report.Seal;
import rampwright.app.report.SheetRow;
import rampwright.app.report.Signature;
import rampwright.app.report.SignatureCheck;

/** The way in: a commissioning record to one page of HTML. */
public final class RecordPage {
  private final Report report;

  private RecordPage(Report report) {
    this.report = report;
  }

  /**
   * The page.
   *
   * @param paper whether it is to be set on paper by what knows no more than CSS 2.1: pictures are
   *     then objects of type {@link #DRAWING}
   */
  public static String html(Report report, boolean paper) {
    StringOutput out = new StringOutput();
    TemplateEngine.createPrecompiled(ContentType.Html)
        .render(
            "record.jte",
            Map.of("page", new RecordPage(report).model(), "paper", paper, "drawing", DRAWING),
            out);
    return Steerless.of(out.toString());
  }

  /** What stands for a picture on paper; its attribute {@code data-paths} says what to draw. */
  public static final String DRAWING = "application/x-rampwright-drawing";

  private RecordModel model() {
    List<RecordModel.Trial> trials = new ArrayList<>();
    for (int k = 1; k <= report.trials().size(); k++) {
      trials.add(new TrialSection(report, k).model());
    }
    AssetFile file = report.asset().value();
    Seal seal = report.seal().value();
    List<SignatureCheck> signatures = report.signatures().value();
    return new RecordModel(
        report.title(),
        facts(),
        switch (report.standing().state()) {
          case ACCEPTED -> "accepted";
          case NOT_ACCEPTED -> "refused";
          case NOT_JUDGED -> "open";
        },
        report.standing().state().key(),
        sentence(report.standing().sentence()),
        besides(),
        report.faults(),
        file == null ? List.of() : sheet(file),
        report.asset().reason(),
        file == null ? List.of() : file.warnings(),
        CheckSections.list(report),
        CheckSections.ready(report),
        trials,
        trialsWhy(),
        OverlayPlot.of(report.trials()),
        hows(trials),
        HeatSection.of(report),
        SignSection.entered(report),
        signatures == null
            ? List.of()
            : signatures.stream().map(one -> SignSection.signed(report, one)).toList(),
        report.signatures().reason(),
        seal == null ? report.seal().reason() : seal.sha256(),
        seal == null
            ? List.of()
            : seal.files().stream()
                .map(one -> new RecordModel.Pair(one.path(), one.sha256()))
                .toList());
  }

  private static String sentence(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1) + ".";
  }

  private List<RecordModel.Pair> facts() {
    List<RecordModel.Pair> facts = new ArrayList<>();
    AssetFile file = report.asset().value();
    if (file != null) {
      String site = file.asset().site();
      facts.add(new RecordModel.Pair("Asset", file.asset().id()));
      facts.add(new RecordModel.Pair("Site", site == null ? "not said" : site));
    }
    facts.add(new RecordModel.Pair("Folder", report.folder()));
    String by = report.madeBy();
    facts.add(
        new RecordModel.Pair(
            "Made",
            report.site().text(report.madeAt())
                + (by == null ? ", by whom was not said" : " by " + by)
                + ", with rampwright "
                + report.toolVersion()));
    boolean zoned = file != null && file.asset().zone() != null;
    facts.add(
        new RecordModel.Pair(
            "Times",
            "of "
                + report.site().zone()
                + (zoned ? "" : ", the clock of the computer: the sheet names no zone")
                + ", each with what it is ahead of UTC"));
    return facts;
  }

  /** How the list and the signatures stand, beside the state. */
  private List<String> besides() {
    List<String> lines = new ArrayList<>();
    EnergisingList list = report.list().value();
    lines.add(
        list == null
            ? "List before energising: cannot be read."
            : list.open() == 0
                ? "List before energising: all " + list.items().size() + " checks are ticked."
                : "List before energising: "
                    + list.open()
                    + " of "
                    + list.items().size()
                    + " checks are OPEN.");
    List<SignatureCheck> signatures = report.signatures().value();
    if (signatures == null) {
      lines.add("Signatures: cannot be read.");
    } else if (signatures.isEmpty()) {
      lines.add("Not signed.");
    } else {
      SignatureCheck last = signatures.get(signatures.size() - 1);
      Signature signature = last.signature();
      String despite = signature.despite();
      lines.add(
          (signatures.size() == 1 ? "Signed by " : signatures.size() + " signatures; last by ")
              + signature.name()
              + ", "
              + report.site().text(signature.at())
              + (despite == null ? "" : ", although " + signature.against() + ": " + despite)
              + "; "
              + last.sentence()
              + ".");
      long fallen =
          signatures.subList(0, signatures.size() - 1).stream()
              .filter(one -> !one.stands())
              .count();
      if (fallen > 0) {
        lines.add(
            "Of the earlier signatures, "
                + fallen
                + " stood under something else than what is there now (part 7).");
      }
    }
    return lines;
  }

  private String trialsWhy() {
    String gone = report.gone();
    if (gone != null) {
      return gone;
    }
    return report.trials().isEmpty() ? "No trial was made yet." : "";
  }

  private static List<RecordModel.Group> sheet(AssetFile file) {
    Map<String, List<RecordModel.Line>> groups = new LinkedHashMap<>();
    for (SheetRow row : SheetRow.of(file.asset())) {
      String value = row.value();
      groups
          .computeIfAbsent(row.section(), key -> new ArrayList<>())
          .add(
              new RecordModel.Line(
                  row.label(),
                  row.label().equals(row.meaning()) ? "" : row.meaning(),
                  value == null
                      ? "not given"
                      : row.unit().isEmpty() ? value : value + " " + row.unit(),
                  value != null));
    }
    List<RecordModel.Group> all = new ArrayList<>();
    groups.forEach((name, lines) -> all.add(new RecordModel.Group(name, lines)));
    return all;
  }

  /** How figures were found, each rule once with all it was used for. */
  private static List<RecordModel.How> hows(List<RecordModel.Trial> trials) {
    Map<String, List<RecordModel.Where>> where = new LinkedHashMap<>();
    Map<String, RecordModel.Figure> first = new LinkedHashMap<>();
    for (RecordModel.Trial trial : trials) {
      for (RecordModel.Start start : trial.starts()) {
        for (RecordModel.Found found : List.of(start.start(), start.stopped())) {
          List<RecordModel.Figure> all = new ArrayList<>(found.instants());
          all.addAll(found.figures());
          for (RecordModel.Figure one : all) {
            String key = one.label() + "\n" + one.rule();
            first.putIfAbsent(key, one);
            where
                .computeIfAbsent(key, k -> new ArrayList<>())
                .add(
                    new RecordModel.Where(
                        one.anchor(), "trial " + trial.number() + ": " + one.window()));
          }
        }
      }
    }
    // Rules of one figure stand together, where the figure came first.
    Map<String, List<RecordModel.How>> byLabel = new LinkedHashMap<>();
    first.forEach(
        (key, one) ->
            byLabel
                .computeIfAbsent(one.label(), label -> new ArrayList<>())
                .add(
                    new RecordModel.How(
                        one.label(), one.rule(), where.getOrDefault(key, List.of()))));
    return byLabel.values().stream().flatMap(List::stream).toList();
  }
}
