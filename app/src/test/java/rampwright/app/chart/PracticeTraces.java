package rampwright.app.chart;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Practice traces as far as pictures need them; the reader of the program is not used here. */
final class PracticeTraces {
  private PracticeTraces() {}

  /** The folder of practice traces beside the project, if it is there. */
  static Optional<Path> folder() {
    for (Path at = Path.of("").toAbsolutePath(); at != null; at = at.getParent()) {
      for (String shared : new String[] {"shared/practice", "../shared/practice"}) {
        Path candidate = at.resolve(shared).normalize();
        if (Files.isDirectory(candidate)) {
          return Optional.of(candidate);
        }
      }
    }
    return Optional.empty();
  }

  /** A practice trial. */
  record Practice(Trace trace, RmsTrack track, Rated rated, List<Mark> marks, JsonNode truth) {
    double instant(String label) {
      return marks.stream()
          .filter(m -> m.label().equals(label))
          .mapToDouble(Mark::atS)
          .findFirst()
          .orElse(Double.NaN);
    }
  }

  static Practice read(Path trialFolder, Path assetFile) throws IOException {
    Path plain = trialFolder.resolve("trace.csv");
    boolean waveform = !Files.exists(plain);
    Trace trace = csv(waveform ? trialFolder.resolve("trace.csv.gz") : plain, waveform);
    TomlParseResult asset = Toml.parse(assetFile);
    double ratedHz = asset.getDouble("motor.rated_frequency_Hz");
    RmsTrack track = waveform ? oneCycleRms(trace, ratedHz) : asTrack(trace);
    Rated rated =
        new Rated(
            asset.getDouble("motor.rated_current_A"),
            asset.getDouble("motor.rated_speed_rpm"),
            asset.getDouble("supply.voltage_V"));
    JsonNode truth =
        new ObjectMapper().readTree(Files.readString(trialFolder.resolve("truth.json")));
    return new Practice(trace, track, rated, marks(truth), truth);
  }

  private static List<Mark> marks(JsonNode truth) {
    List<Mark> marks = new ArrayList<>();
    double inception = truth.path("inception_s").asDouble();
    double fullSpeed = truth.path("full_speed_s").asDouble();
    add(marks, "inception", inception);
    if (truth.path("breakaway_delay_s").isNumber()) {
      add(marks, "breakaway", inception + truth.path("breakaway_delay_s").asDouble());
    }
    if (truth.path("full_speed_s").isNumber()) {
      add(marks, "full speed", fullSpeed);
      // No truth is given for these three; they are set where such instants usually lie.
      double startTime = fullSpeed - inception;
      add(marks, "knee", fullSpeed + 0.02 * startTime);
      add(marks, "bypass", fullSpeed + 0.05 * startTime);
      add(marks, "settled", fullSpeed + 0.09 * startTime);
    }
    for (String key : new String[] {"stop_begin_s", "release_s", "rest_s"}) {
      if (truth.path(key).isNumber()) {
        add(marks, Wording.instant(key), truth.path(key).asDouble());
      }
    }
    return marks;
  }

  private static void add(List<Mark> marks, String label, double atS) {
    marks.add(new Mark(label, atS, 0.02, false));
  }

  private static Trace csv(Path file, boolean waveform) throws IOException {
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                file.toString().endsWith(".gz")
                    ? new GZIPInputStream(Files.newInputStream(file))
                    : Files.newInputStream(file),
                StandardCharsets.UTF_8))) {
      String[] header = lines.readLine().split(",", -1);
      List<double[]> rows = new ArrayList<>();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        rows.add(
            Arrays.stream(line.split(",", -1))
                .mapToDouble(cell -> cell.isBlank() ? Double.NaN : Double.parseDouble(cell))
                .toArray());
      }
      Map<ChannelName, Samples> channels = new LinkedHashMap<>();
      double[] timeS = column(rows, 0);
      for (ChannelName name : ChannelName.values()) {
        int at = Arrays.asList(header).indexOf(name.column());
        if (at > 0) {
          channels.put(name, Samples.owning(column(rows, at)));
        }
      }
      return new Trace(
          TimeBase.listed(Samples.owning(timeS)),
          channels,
          waveform ? TraceKind.WAVEFORM : TraceKind.RMS,
          Provenance.computed(file.getFileName().toString()));
    }
  }

  private static double[] column(List<double[]> rows, int at) {
    return rows.stream().mapToDouble(row -> at < row.length ? row[at] : Double.NaN).toArray();
  }

  private static RmsTrack asTrack(Trace trace) {
    EnumMap<ChannelName, double[]> values = new EnumMap<>(ChannelName.class);
    trace.names().forEach(name -> values.put(name, trace.channel(name).toArray()));
    return new RmsTrack(times(trace), values);
  }

  private static double[] times(Trace trace) {
    double[] timeS = new double[trace.size()];
    Arrays.setAll(timeS, trace.time()::atS);
    return timeS;
  }

  /** RMS over one cycle of the rated frequency, every half cycle. For pictures only. */
  private static RmsTrack oneCycleRms(Trace trace, double hz) {
    int cycle = (int) Math.round(1 / hz / trace.time().typicalStepS());
    int count = Math.max(0, (trace.size() - cycle) / (cycle / 2));
    double[] timeS = new double[count];
    EnumMap<ChannelName, double[]> values = new EnumMap<>(ChannelName.class);
    for (ChannelName name : trace.names()) {
      double[] samples = trace.channel(name).toArray();
      double[] rms = new double[count];
      for (int k = 0; k < count; k++) {
        int from = k * (cycle / 2);
        timeS[k] = trace.time().atS(from + cycle - 1);
        double sum = 0;
        for (int i = from; i < from + cycle; i++) {
          sum += name == ChannelName.SPEED ? samples[i] : samples[i] * samples[i];
        }
        rms[k] = name == ChannelName.SPEED ? sum / cycle : Math.sqrt(sum / cycle);
      }
      values.put(name, rms);
    }
    return new RmsTrack(timeS, values);
  }
}
