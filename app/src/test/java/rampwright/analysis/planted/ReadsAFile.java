package rampwright.analysis.planted;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

final class ReadsAFile {
  private ReadsAFile() {}

  static long size(Path path) throws IOException {
    return Files.size(path);
  }
}
