package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.TrialSettings;
import rampwright.app.report.Report;
import rampwright.app.report.ReportTrial;
import rampwright.app.report.SettingRow;
import rampwright.app.report.Signature;
import rampwright.app.report.SignatureCheck;
import rampwright.app.report.Standing;

/** The settings to be entered, and the names under the record. */
final class SignSection {
  private SignSection() {}

  static RecordModel.Entered entered(Report report) {
    AssetFile file = report.asset().value();
    ReportTrial trial = report.decisive();
    if (report.standing().state() != Standing.State.ACCEPTED || trial == null || file == null) {
      return new RecordModel.Entered(
          "None: no trial is accepted (" + report.standing().sentence() + ").", "", List.of(), "");
    }
    TrialSettings settings = trial.notes().settings();
    if (settings.isEmpty()) {
      return new RecordModel.Entered(
          "The settings of the accepted trial " + trial.name() + " were not noted.",
          "",
          List.of(),
          "");
    }
    return new RecordModel.Entered(
        "",
        trial.name(),
        SettingRow.counting(settings).stream().map(TrialSection::set).toList(),
        TrialSection.bothWays(settings, file.asset()));
  }

  static RecordModel.Signed signed(Report report, SignatureCheck check) {
    Signature signature = check.signature();
    List<RecordModel.Pair> words = new ArrayList<>();
    add(words, "as", signature.role());
    words.add(
        new RecordModel.Pair(
            "the record stood",
            signature.state() + (signature.trial() == null ? "" : ", trial " + signature.trial())));
    add(words, "although", signature.against());
    add(words, "because", signature.despite());
    add(words, "note", signature.note());
    return new RecordModel.Signed(
        signature.name(),
        signature.at()
            + " (UTC), "
            + report.site().text(signature.at())
            + "; clocks of "
            + signature.zone(),
        words,
        check.stands() ? "accepted" : "refused",
        check.sentence(),
        signature.sha256());
  }

  private static void add(List<RecordModel.Pair> words, String name, @Nullable String text) {
    if (text != null) {
      words.add(new RecordModel.Pair(name, text));
    }
  }
}
