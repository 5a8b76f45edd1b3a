package rampwright.app.asset;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlSection;
import rampwright.analysis.figure.Outcome;
import rampwright.app.envelope.FigureKey;

/** Reads and writes {@code settings.toml}, and files that hold its {@code [columns]} alone. */
public final class TrialFiles {
  /** Instants a person may correct. */
  static final List<String> INSTANTS =
      List.of(
          "inception_s",
          "breakaway_s",
          "full_speed_s",
          "knee_s",
          "bypass_s",
          "settled_s",
          "stop_begin_s",
          "release_s",
          "rest_s");

  private static final double LONGEST_TRACE_S = 1e9;

  private TrialFiles() {}

  /**
   * The settings and notes of a trial.
   *
   * @throws TomlProblemsException with every problem of the file
   */
  public static TrialFile read(Path path) throws IOException, TomlProblemsException {
    return read(TomlFile.read(path));
  }

  /** The same from a text; {@code name} stands for the file in messages. */
  public static TrialFile parse(String name, String text) throws TomlProblemsException {
    return read(TomlFile.parse(name, text));
  }

  /** The {@code [columns]} of a file, whatever else a settings file may hold beside it. */
  public static ColumnMapping readColumns(Path path) throws IOException, TomlProblemsException {
    TomlFile file = TomlFile.read(path);
    TrialFile trial = read(file);
    if (trial.columns().equals(ColumnMapping.NONE)) {
      file.root().missing("columns", "the table that says which column is which channel");
      file.finish();
    }
    return trial.columns();
  }

  private static TrialFile read(TomlFile file) throws TomlProblemsException {
    TomlSection root = file.root();
    List<String> warnings = new ArrayList<>();
    TrialSettings settings = settings(root, warnings);
    TomlSection trial = root.section("trial");
    TrialNotes notes = trial == null ? TrialNotes.NONE : notes(trial);
    TomlSection columns = root.section("columns");
    ColumnMapping mapping = columns == null ? ColumnMapping.NONE : ColumnsSection.read(columns);
    TomlSection seen = root.section("seen");
    SeenByHand seenByHand = seen == null ? null : seen(seen);
    root.finish();
    file.finish();
    return new TrialFile(settings, notes, mapping, seenByHand, warnings);
  }

  private static TrialSettings settings(TomlSection in, List<String> warnings) {
    TrialSettings.Control control =
        in.word("control", Words.of(TrialSettings.Control.values(), TrialSettings.Control::key));
    Double limit = in.number(TrialSettings.CURRENT_LIMIT_RATIO);
    TrialSettings.LimitOf limitOf =
        in.word(
            "current_limit_of",
            Words.of(TrialSettings.LimitOf.values(), TrialSettings.LimitOf::key));
    TrialSettings settings =
        new TrialSettings(
            control,
            limit,
            limitOf == null ? TrialSettings.LimitOf.MOTOR : limitOf,
            in.number(TrialSettings.RAMP_UP_S),
            in.number(TrialSettings.INITIAL_TORQUE_PCT),
            in.number(TrialSettings.INITIAL_VOLTAGE_PCT),
            in.number(TrialSettings.PULSE_VOLTAGE_PCT),
            in.number(TrialSettings.PULSE_S),
            in.word("stop", Words.of(TrialSettings.Stop.values(), TrialSettings.Stop::key)),
            in.number(TrialSettings.RELEASE_TORQUE_PCT),
            in.number(TrialSettings.RAMP_DOWN_S));
    if (limitOf != null && limit == null) {
      in.missing("current_limit_ratio", "what current_limit_of speaks of");
    }
    if (settings.control() == null && settings.rampUpS() != null) {
      warnings.add(
          "settings: control is not noted; write control = \"torque ramp\" or \"voltage ramp\"");
    }
    return settings;
  }

  private static TrialNotes notes(TomlSection in) {
    Instant at = in.instant("at");
    Boolean representative = in.flag("representative");
    String reason = in.text("reason");
    if (Boolean.FALSE.equals(representative) && (reason == null || reason.isBlank())) {
      in.problem("representative", "representative = false needs a reason; add reason = \"...\"");
    }
    Map<String, Double> corrected = new LinkedHashMap<>();
    String why = "";
    TomlSection correction = in.section("corrected");
    if (correction != null) {
      for (String key : INSTANTS) {
        Double value =
            correction.number(
                new NumberKey(
                    key, "s", -LONGEST_TRACE_S, LONGEST_TRACE_S, "on the trace's time base", ""));
        if (value != null) {
          corrected.put(key, value);
        }
      }
      String given = correction.text("reason");
      if (given == null || given.isBlank()) {
        in.problem("corrected", "corrected needs a reason; add reason = \"...\" to it");
      } else {
        why = given;
      }
      if (corrected.isEmpty()) {
        in.problem(
            "corrected", "corrected names no instant; allowed: " + String.join(", ", INSTANTS));
      }
      correction.finish();
    }
    in.finish();
    return new TrialNotes(
        at, representative == null || representative, reason == null ? "" : reason, corrected, why);
  }

  private static SeenByHand seen(TomlSection in) {
    Map<FigureKey, Double> figures = new EnumMap<>(FigureKey.class);
    for (FigureKey figure : FigureKey.values()) {
      Double value =
          in.number(new NumberKey(figure.key(), figure.unit(), -1e12, 1e12, figure.label(), ""));
      if (value != null) {
        figures.put(figure, value);
      }
    }
    Outcome outcome = in.word("outcome", Words.of(Outcome.values(), Outcome::key));
    SeenByHand seen =
        new SeenByHand(
            figures, outcome == null ? null : outcome.key(), in.text("by"), in.text("note"));
    in.finish();
    if (figures.isEmpty() && outcome == null && seen.note() == null) {
      in.missing("outcome", "what was seen: an outcome, a figure or a note");
    }
    return seen;
  }

  /** Settings and notes as the text of a file. */
  public static String text(TrialFile trial) {
    return TrialText.of(trial);
  }

  /** Writes settings and notes, whole or not at all. Comments of an older file are not kept. */
  public static void write(Path path, TrialFile trial) throws IOException {
    AtomicFile.write(path, TrialText.of(trial).getBytes(StandardCharsets.UTF_8));
  }

  static @Nullable String blankToNull(String text) {
    return text.isBlank() ? null : text;
  }
}
