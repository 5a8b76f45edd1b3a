package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/** Made-up files for tests, and the folders of measured ones. */
final class CsvFiles {
  private final Path folder;

  CsvFiles(Path folder) {
    this.folder = folder;
  }

  Path file(byte[] bytes) {
    try {
      return Files.write(folder.resolve("trace.csv"), bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  Path file(String text) {
    return file(text.getBytes(StandardCharsets.UTF_8));
  }

  Trace read(String text) throws TraceFileException {
    return CsvTraceReader.read(file(text), ColumnMapping.NONE, null);
  }

  Trace read(String text, ColumnMapping columns) throws TraceFileException {
    return CsvTraceReader.read(file(text), columns, null);
  }

  Trace read(String text, ReadContext context) throws TraceFileException {
    return CsvTraceReader.read(file(text), ColumnMapping.NONE, null, context, CsvLimits.standard());
  }

  /** The message of a file that must not read, without the folder's name. */
  String message(String text) {
    return message(file(text), ColumnMapping.NONE);
  }

  String message(String text, ColumnMapping columns) {
    return message(file(text), columns);
  }

  static String message(Path file, ColumnMapping columns) {
    TraceFileException problem =
        catchThrowableOfType(
            TraceFileException.class, () -> CsvTraceReader.read(file, columns, null));
    if (problem == null) {
      throw new AssertionError("the file was read, but should not have been");
    }
    Path parent = file.getParent();
    return problem.getMessage().replace(parent + file.getFileSystem().getSeparator(), "");
  }

  static double[] values(Trace trace, ChannelName channel) {
    Samples samples = trace.channel(channel);
    if (samples == null) {
      throw new AssertionError("no channel " + channel.key() + " in " + trace.names());
    }
    return samples.toArray();
  }

  static double[] times(Trace trace) {
    double[] times = new double[trace.size()];
    for (int i = 0; i < times.length; i++) {
      times[i] = trace.time().atS(i);
    }
    return times;
  }

  static ColumnMapping mapping(String key, ColumnRule rule) {
    return new ColumnMapping(Map.of(key, rule));
  }

  static ColumnRule named(String name, String unit) {
    return new ColumnRule(name, null, unit, null, null);
  }

  static ColumnRule scaled(String name, double scale) {
    return new ColumnRule(name, null, null, scale, null);
  }

  static ColumnRule at(int index, String unit) {
    return new ColumnRule(null, index, unit, null, null);
  }

  /** A folder of measured or made data beside the project; the test is skipped without it. */
  static Path shared(String name) {
    for (Path at = Path.of("").toAbsolutePath(); at != null; at = at.getParent()) {
      Path candidate = at.resolve("shared").resolve(name);
      if (Files.isDirectory(candidate)) {
        return candidate;
      }
    }
    assumeTrue(false, "no shared/" + name + " above the working directory");
    throw new IllegalStateException("not reached");
  }
}
