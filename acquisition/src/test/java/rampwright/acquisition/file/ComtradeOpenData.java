package rampwright.acquisition.file;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;

/** Finds recordings that lie beside the project and are not part of it. */
final class ComtradeOpenData {
  private ComtradeOpenData() {}

  /** The file of that name under {@code shared}; the test is skipped where it is absent. */
  static Path file(String name) {
    for (Path at = Path.of("").toAbsolutePath(); at != null; at = at.getParent()) {
      Path found = at.resolve("shared").resolve(name);
      if (Files.exists(found)) {
        return found;
      }
    }
    assumeTrue(false, "shared/" + name + " is not beside this project");
    throw new IllegalStateException("not reached");
  }
}
