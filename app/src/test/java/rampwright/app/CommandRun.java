package rampwright.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.StringWriter;
import java.time.Instant;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.app.cli.Screen;
import rampwright.app.cli.Services;
import rampwright.app.cli.Terminal;

/** The commands in this process, with the readers, the arithmetic and the charts of the program. */
public final class CommandRun {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private CommandRun() {}

  /**
   * What a command answered.
   *
   * @param exit its exit code
   * @param out its results
   * @param err its talk
   */
  public record Answer(int exit, String out, String err) {
    /** The results as a tree. */
    public JsonNode json() {
      try {
        return MAPPER.readTree(out);
      } catch (JsonProcessingException e) {
        throw new IllegalStateException("no JSON: " + out + err, e);
      }
    }
  }

  /** Runs a command line. */
  public static Answer run(Object... words) {
    return run(name -> null, words);
  }

  /** The same with variables of an environment. */
  static Answer run(UnaryOperator<@Nullable String> environment, Object... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Services services =
        new Services(
            Wiring.traceFiles(),
            Wiring.analyzer(),
            Wiring.charts(),
            Wiring.predictions(),
            Wiring.heat(),
            Wiring.readiness(),
            new BundledSamples("/sample-traces"),
            "9.9.9",
            2,
            () -> Instant.parse("2026-03-14T09:12:05Z"),
            environment);
    String[] args = new String[words.length];
    for (int i = 0; i < args.length; i++) {
      args[i] = words[i].toString();
    }
    int exit = new Terminal(new Screen(out, err, false), services).run(args);
    return new Answer(exit, out.toString(), err.toString());
  }
}
