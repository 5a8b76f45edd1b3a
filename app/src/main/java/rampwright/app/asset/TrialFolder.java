package rampwright.app.asset;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * One trial's folder.
 *
 * @param path the folder
 * @param name its name
 * @param trace the trace file in it; null for a trial noted by hand
 * @param settings the settings file in it; null when there is none
 */
public record TrialFolder(Path path, String name, @Nullable Path trace, @Nullable Path settings) {}
