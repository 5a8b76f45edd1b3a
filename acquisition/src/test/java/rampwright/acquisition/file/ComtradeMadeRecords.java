package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/** Records made here for tests. */
abstract class ComtradeMadeRecords {
  static final double EXACT = 1e-12;
  static final String IA = "1,IA,A,,A,0.5,0,0,-32767,32767,1,1,P";
  static final String DATES = "14/03/2026,09:12:05.000000\n14/03/2026,09:12:06.000000\n";

  @TempDir Path folder;

  static String config(String analog, String tail) {
    long count = analog.lines().count();
    return "plant,recorder,1999\n" + count + "," + count + "A,0D\n" + analog + "\n50\n" + tail;
  }

  Path files(String config, String data) throws IOException {
    return files(config, data.getBytes(StandardCharsets.UTF_8));
  }

  Path files(String config, byte[] data) throws IOException {
    Path file = folder.resolve("r.cfg");
    Files.writeString(file, config);
    Files.write(folder.resolve("r.dat"), data);
    return file;
  }

  Path simple(String analog, String data) throws IOException {
    return files(config(analog, "1\n1000,3\n" + DATES + "ASCII\n1\n"), data);
  }

  static double[] values(Trace trace, ChannelName name) {
    return Objects.requireNonNull(trace.channel(name), name.key()).toArray();
  }

  static Trace read(Path file) throws TraceFileException {
    return ComtradeReader.read(file, ReadOptions.DEFAULT);
  }

  static Trace read(Path file, String key, ColumnRule rule) throws TraceFileException {
    return ComtradeReader.read(
        file, new ReadOptions(new ColumnMapping(Map.of(key, rule)), null, false));
  }

  static TraceFileException problem(Path file) {
    return catchThrowableOfType(TraceFileException.class, () -> read(file));
  }
}
