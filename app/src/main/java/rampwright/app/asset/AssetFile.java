package rampwright.app.asset;

import java.nio.file.Path;
import java.util.List;

/**
 * An asset and where it was read from.
 *
 * @param path the file
 * @param asset what it says
 * @param warnings what does not fit together but may be so; one line each
 */
public record AssetFile(Path path, Asset asset, List<String> warnings) {
  public AssetFile {
    warnings = List.copyOf(warnings);
  }
}
