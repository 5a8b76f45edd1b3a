package rampwright.app.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import rampwright.app.alert.AlertFile;
import rampwright.app.alert.TellException;
import rampwright.app.alert.Teller;
import rampwright.app.alert.Webhook;
import rampwright.app.usecase.UsageProblem;

/** Where alerts are told, and when a limit ahead raises one. */
final class AlertOptions {
  private static final Duration TIMEOUT = Duration.ofSeconds(10);
  private static final int LONGEST_DAYS = 3650;

  @Option(
      names = "--alerts",
      paramLabel = "FILE",
      description =
          "Raise and clear alerts; each, once, becomes a line of JSON in this file. Exit code 3"
              + " while one stands that nobody has seen (logbook note ASSET seen TEXT --by NAME).")
  private @Nullable Path file;

  @Option(
      names = "--webhook",
      paramLabel = "URL",
      description =
          "Post each alert there too. Better in RAMPWRIGHT_WEBHOOK, since commands end up in"
              + " histories; a bearer token in RAMPWRIGHT_WEBHOOK_TOKEN.")
  private @Nullable String webhook;

  @Option(names = "--plain-http", description = "Allow a webhook without TLS on another machine.")
  private boolean plainHttp;

  @Option(
      names = "--within",
      paramLabel = "DAYS",
      defaultValue = "60",
      description = "A limit whose most likely day is this near raises an alert (60).")
  private int withinDays;

  /** Whether alerts are asked for. */
  boolean isOn() {
    return file != null;
  }

  Duration within() throws UsageProblem {
    if (withinDays < 1 || withinDays > LONGEST_DAYS) {
      throw new UsageProblem("--within " + withinDays + ": give 1 to " + LONGEST_DAYS + " days");
    }
    return Duration.ofDays(withinDays);
  }

  List<Teller> tellers(UnaryOperator<@Nullable String> environment) throws UsageProblem {
    List<Teller> tellers = new ArrayList<>();
    Path target = file;
    if (target != null) {
      tellers.add(new AlertFile(target));
    }
    String address = webhook == null ? environment.apply("RAMPWRIGHT_WEBHOOK") : webhook;
    if (address != null && !address.isBlank()) {
      try {
        tellers.add(
            Webhook.to(
                address,
                environment.apply("RAMPWRIGHT_WEBHOOK_TOKEN"),
                plainHttp,
                TIMEOUT,
                time -> Thread.sleep(time.toMillis())));
      } catch (TellException e) {
        throw new UsageProblem(String.valueOf(e.getMessage()));
      }
    }
    return tellers;
  }

  /** Says what is asked for without its other half. */
  void check() throws UsageProblem {
    if (file == null && (webhook != null || plainHttp)) {
      throw new UsageProblem("--webhook goes with --alerts FILE, which keeps a line of each alert");
    }
  }
}
