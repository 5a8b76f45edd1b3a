package rampwright.app.asset;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnMapping;

/**
 * What {@code settings.toml} of a trial says.
 *
 * @param settings what was set on the starter
 * @param notes what a person says about the trial
 * @param columns how the columns of the trace are to be read
 * @param seen what was noted by hand; null when nothing was
 * @param warnings what is odd but may be so; one line each
 */
public record TrialFile(
    TrialSettings settings,
    TrialNotes notes,
    ColumnMapping columns,
    @Nullable SeenByHand seen,
    List<String> warnings) {
  /** A trial without a settings file. */
  public static final TrialFile NONE =
      new TrialFile(TrialSettings.NONE, TrialNotes.NONE, ColumnMapping.NONE, null, List.of());

  public TrialFile {
    warnings = List.copyOf(warnings);
  }
}
