package rampwright.app.cli;

import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.acquisition.bench.BenchFault;
import rampwright.acquisition.bench.BenchMotor;
import rampwright.acquisition.device.Timekeeper;
import rampwright.app.json.DeviceJson;
import rampwright.app.result.BenchSheet;
import rampwright.app.usecase.Bench;
import rampwright.app.usecase.DeviceProblem;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.PlayBench;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.wording.ValueText;

/** {@code bench}: an asset's motor, played as a device to practise recording on. */
@CommandLine.Command(
    name = "bench",
    header = "Play an asset's motor as a device, to practise recording on.",
    description = {
      "",
      "Computes starts and stops from the asset sheet and answers as a Modbus TCP meter on 127.0.0.1,"
          + " read-only, until told to quit. Writes the channel map to record with. Orders are lines"
          + " on standard input: "
          + Bench.ORDERS
          + ". With --json an object says where it is found; what is told later is talk.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright bench pump/",
      "  rampwright bench pump/ --start-after 10 --stop-after 40 --quit-after 90",
      "  rampwright bench pump/ --fault drop --rate 0.05"
    })
final class BenchCommand extends Command {
  private static final int TURN_MS = 20;
  private static final double NANOS = 1e-9;

  @Parameters(paramLabel = "FOLDER", description = "The asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      description =
          "What is set on the starter. Left out: settings.toml beside the asset, else the last"
              + " trial's.")
  private @Nullable Path settings;

  @Option(
      names = "--tcp-port",
      paramLabel = "N",
      description = "Port of 127.0.0.1. Left out: 1502; 0: any that is free.")
  private int tcpPort = 1502;

  @Option(
      names = "--map-out",
      paramLabel = "FILE",
      description = "Where the channel map goes. Left out: bench.map.toml here.")
  private Path mapOut = Path.of("bench.map.toml");

  @Option(
      names = "--rtu",
      paramLabel = "A,B",
      description =
          "Answer on pseudo-terminal A as a Modbus RTU device too; B is its other end, for the map"
              + " rtu-*.")
  private String rtu = "";

  @Option(
      names = "--lines",
      paramLabel = "A,B",
      description =
          "Print lines on pseudo-terminal A too; B is its other end, for the map lines-*.")
  private String lines = "";

  @Option(
      names = "--baud",
      paramLabel = "N",
      description = "Bits a second of both. Left out: 115200.")
  private int baud = 115_200;

  @Option(
      names = "--pace",
      paramLabel = "N",
      description = "How many times faster than the clock. Left out: 1.")
  private double pace = 1;

  @Option(
      names = "--noise",
      paramLabel = "PCT",
      description = "Noise of a reading, percent of it. Left out: 0.3.")
  private double noisePct = 0.3;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Seed of noise and faults. Left out: 1.")
  private long seed = 1;

  @Option(
      names = "--fault",
      paramLabel = "KIND",
      description = "What goes wrong with answers: drop, slow, exception, garbage.")
  private String fault = "none";

  @Option(
      names = "--rate",
      paramLabel = "SHARE",
      description = "Share of answers that go wrong, 0 to 1. Left out: 0.05.")
  private double rate = Bench.USUAL_RATE;

  @Option(
      names = "--start-after",
      paramLabel = "S",
      description = "Start by itself after so many seconds.")
  private @Nullable Double startAfterS;

  @Option(
      names = "--stop-after",
      paramLabel = "S",
      description = "Stop by itself after so many seconds, counted from the bench's begin.")
  private @Nullable Double stopAfterS;

  @Option(
      names = "--quit-after",
      paramLabel = "S",
      description = "Quit by itself after so many seconds, counted from the bench's begin.")
  private @Nullable Double quitAfterS;

  private BenchMotor.State shown = BenchMotor.State.AT_REST;

  BenchCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, DeviceProblem, InterruptedException {
    check("--tcp-port", tcpPort, 0, 65535);
    check("--baud", baud, 300, 921_600);
    check("--pace", pace, 0.1, 1000);
    check("--noise", noisePct, 0, 20);
    check("--rate", rate, 0, 1);
    for (Double after : new Double[] {startAfterS, stopAfterS, quitAfterS}) {
      check("--start-after, --stop-after and --quit-after", after == null ? 0 : after, 0, 1e6);
    }
    BenchFault kind = Bench.kind(fault);
    if (kind == null) {
      throw new UsageProblem("--fault is one of " + Bench.kinds());
    }
    PlayBench.Request wanted =
        new PlayBench.Request(
            folder,
            settings,
            tcpPort,
            mapOut,
            terminals("--rtu", rtu),
            terminals("--lines", lines),
            baud,
            pace,
            noisePct / 100,
            seed,
            kind,
            rate);
    AtomicBoolean ended = new AtomicBoolean();
    StopSignal signal = new StopSignal(() -> ended.set(true), StopSignal.USUAL_S);
    try (Bench bench = services().playBench().open(wanted)) {
      greet(bench.sheet());
      attend(bench, ended);
      screen().say("the bench is closed");
    } finally {
      screen().flush();
      signal.finished();
    }
    return ExitCode.DONE;
  }

  private static PlayBench.@Nullable Terminals terminals(String option, String pair)
      throws UsageProblem {
    if (pair.isEmpty()) {
      return null;
    }
    int comma = pair.indexOf(',');
    if (comma < 1 || comma == pair.length() - 1) {
      throw new UsageProblem(
          option
              + " takes the two ends of a pair of pseudo-terminals, A,B: the bench's and the"
              + " recorder's (socat pty,raw,echo=0,link=A pty,raw,echo=0,link=B)");
    }
    return new PlayBench.Terminals(
        Path.of(pair.substring(0, comma)), Path.of(pair.substring(comma + 1)));
  }

  private void greet(BenchSheet bench) {
    if (isJson()) {
      screen().raw(DeviceJson.bench(bench));
      return;
    }
    screen().line("bench: " + bench.asset() + ", computed; no such motor turns");
    screen()
        .line(
            "  Modbus TCP "
                + BenchSheet.HOST
                + ":"
                + bench.tcpPort()
                + ", unit "
                + bench.unit()
                + ", read-only");
    screen()
        .line(
            "  registers 0: f32; 100: u16 of "
                + ValueText.value(bench.currentA(), null)
                + " A, "
                + ValueText.value(bench.voltageV(), null)
                + " V, "
                + ValueText.value(bench.speedRpm(), null)
                + " rpm");
    screen().line("  settings " + bench.settings());
    bench.maps().forEach(map -> screen().line("  channel map " + map));
    screen().flush();
    screen()
        .say(
            "record in another terminal: rampwright record "
                + folder
                + " --map "
                + bench.maps().get(0));
    screen().say("orders: " + Bench.ORDERS);
  }

  private void attend(Bench bench, AtomicBoolean ended) throws InterruptedException {
    Timekeeper time = services().devices().time();
    KeyWords keys = new KeyWords();
    long beganNs = time.nanos();
    Double start = startAfterS;
    Double stop = stopAfterS;
    while (!ended.get()) {
      String typed = keys.next(TURN_MS);
      double nowS = (time.nanos() - beganNs) * NANOS;
      if (typed.equals("quit") || (quitAfterS != null && nowS >= quitAfterS)) {
        return;
      }
      if (!typed.isEmpty()) {
        screen().say(bench.order(typed));
      }
      if (start != null && nowS >= start) {
        start = null;
        screen().say(bench.order("start"));
      }
      if (stop != null && nowS >= stop) {
        stop = null;
        screen().say(bench.order("stop"));
      }
      BenchMotor.State now = bench.motor().state();
      if (now != shown) {
        shown = now;
        screen().say("the motor is " + now.words());
      }
    }
  }
}
