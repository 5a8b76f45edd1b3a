package rampwright.app.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.acquisition.record.DeviceQuality;
import rampwright.acquisition.record.EndKind;
import rampwright.acquisition.record.LiveView;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.record.TriggerKind;
import rampwright.app.asset.Asset;
import rampwright.app.json.DeviceJson;
import rampwright.app.result.Batch;
import rampwright.app.usecase.DeviceProblem;
import rampwright.app.usecase.InputChoice;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.RecordTrial;
import rampwright.app.usecase.Recording;
import rampwright.app.usecase.UsageProblem;

/** {@code record}: a start and its stop, from devices into a trial's folder. */
@CommandLine.Command(
    name = "record",
    header = "Record a start and its stop from devices.",
    description = {
      "",
      "Waits with the last seconds in hand, begins when current flows (or speed, run command, at"
          + " once), ends when the motor has stopped, and leaves a trial in the asset folder. Readings"
          + " are on disk from the first on; nothing is lost by Ctrl-C or a power cut but the last"
          + " quarter of a second. It only reads: nothing is ever written to a device.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright record pump/ --map meter.map.toml",
      "  rampwright record pump/ --map meter.map.toml --map tachometer.map.toml --on run",
      "  rampwright record pump/ --map meter.map.toml --settings tried.toml --until settled"
    })
final class RecordCommand extends Command {
  private static final int FRAME_MS = 120;

  @Parameters(paramLabel = "FOLDER", description = "The asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = "--map",
      paramLabel = "MAP",
      required = true,
      description = "A channel map; give it again for each further device.")
  private List<Path> maps = new ArrayList<>();

  @Option(
      names = "--on",
      paramLabel = "current|speed|run|now",
      converter = TriggerConverter.class,
      description = "What begins the trial. Left out: current.")
  private TriggerKind on = TriggerKind.CURRENT;

  @Option(
      names = "--until",
      paramLabel = "stopped|settled",
      converter = EndConverter.class,
      description = "What ends it. Left out: stopped, so that start and stop are in one trial.")
  private EndKind until = EndKind.STOPPED;

  @Option(
      names = "--pre",
      paramLabel = "S",
      description = "Seconds before its begin that belong to it. Left out: 5.")
  private double preS = 5;

  @Option(
      names = "--longest",
      paramLabel = "S",
      description = "Seconds after its begin it may last. Left out: 600.")
  private double longestS = 600;

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      description = "What is set on the starter. Left out: settings.toml beside the asset.")
  private @Nullable Path settings;

  @Option(
      names = "--understood",
      description = "The cautions have been read; for where nobody can be asked.")
  private boolean understood;

  @Option(
      names = "--early",
      paramLabel = "REASON",
      description = "Arm before the heat account allows it; recorded with the trial.")
  private @Nullable String early;

  RecordCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, DeviceProblem, InterruptedException {
    check("--pre", preS, 0, 120);
    check("--longest", longestS, 1, 7200);
    if (early != null && early.isBlank()) {
      throw new UsageProblem("--early needs a reason");
    }
    RecordTrial use = services().recordTrial();
    RecordTrial.Ready ready =
        use.prepare(
            new RecordTrial.Request(folder, maps, on, until, preS, longestS, settings, early));
    ready.remarks().forEach(remark -> screen().say("mind: " + remark));
    KeyWords keys = new KeyWords();
    Cautions.acknowledge(screen(), keys, understood);
    Recording recording = use.arm(ready);
    StopSignal signal = new StopSignal(() -> recording.end("Ctrl-C"));
    try {
      LiveView last = watch(recording, ready, keys);
      Optional<RecordedTrial> trial = finish(recording, keys);
      if (trial.isEmpty()) {
        return nothing(last);
      }
      return tell(trial.get());
    } finally {
      signal.finished();
    }
  }

  private static void check(String option, double value, double least, double most)
      throws UsageProblem {
    if (!(value >= least && value <= most)) {
      throw new UsageProblem(option + " is seconds from " + least + " to " + most);
    }
  }

  private LiveView watch(Recording recording, RecordTrial.Ready ready, KeyWords keys)
      throws InterruptedException {
    Asset asset = ready.asset().asset();
    LiveFrame frame =
        new LiveFrame(asset.name(), ready.plan().ratedCurrentA(), ready.plan().ratedSpeedRpm());
    try (LiveScreen live = new LiveScreen(screen(), frame)) {
      LiveView view = recording.view();
      while (!recording.isEnded()) {
        view = recording.view();
        live.show(view);
        switch (keys.next(FRAME_MS)) {
          case "b" -> recording.beginNow();
          case "e" -> recording.end("by hand");
          default -> {
            // Anything else, and nothing, means nothing.
          }
        }
      }
      view = recording.view();
      live.show(view);
      return view;
    }
  }

  /** What is in memory is not given up while a person can still make room. */
  private Optional<RecordedTrial> finish(Recording recording, KeyWords keys)
      throws InputProblem, InterruptedException {
    while (true) {
      try {
        return recording.finish();
      } catch (InputProblem e) {
        if (!screen().isInteractive()) {
          throw e;
        }
        screen().say(String.valueOf(e.getMessage()));
        screen()
            .say(
                "The trial is whole in memory. Make room, then r Enter to try again; q Enter leaves.");
        String answer = "";
        while (!answer.equals("r")) {
          answer = keys.next(1000);
          if (answer.equals("q")) {
            throw e;
          }
        }
      }
    }
  }

  private int nothing(LiveView last) throws DeviceProblem {
    for (LiveView.DeviceState device : last.devices()) {
      if (!device.fault().isEmpty()) {
        throw new DeviceProblem("nothing was recorded; " + device.name() + ": " + device.fault());
      }
    }
    screen().say("given up before anything began; nothing was recorded");
    return ExitCode.DONE;
  }

  private int tell(RecordedTrial trial) throws InputProblem, UsageProblem, InterruptedException {
    trial.remarks().forEach(remark -> screen().say("mind: " + remark));
    if (isJson()) {
      screen().raw(DeviceJson.recorded(trial));
      return ExitCode.DONE;
    }
    screen().line("recorded: " + trial.folder() + " (ended: " + trial.ended() + ")");
    for (DeviceQuality device : trial.quality()) {
      screen().line("  " + device.text());
      device.gaps().forEach(gap -> screen().line("    gap " + gap.text()));
    }
    screen().line("");
    Batch batch =
        services()
            .analyzeTraces()
            .run(List.of(trial.folder()), InputChoice.DEFAULT, true, new ProgressLine(screen()));
    AnalyzeCommand.show(screen(), batch, false, false);
    return ExitCode.of(batch.standing());
  }
}
