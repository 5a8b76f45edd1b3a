package rampwright.app.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
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
import rampwright.app.usecase.LogQueue;
import rampwright.app.usecase.LogTrial;
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
  private static final int AGAIN_S = 5;

  /** Ten minutes: whoever runs this from a script may not be looking. */
  private static final int MOST_AGAIN = 120;

  private static final String GIVEN_UP = "given up before anything began";

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

  @Option(
      names = "--logbook",
      paramLabel = "FILE|URL",
      description =
          "Enter the trial into this logbook, with those that were kept out of it before. Left"
              + " out: RAMPWRIGHT_LOGBOOK; where that is not set, none.")
  private @Nullable String logbook;

  RecordCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, DeviceProblem, InterruptedException {
    check("--pre S", preS, 0, 120);
    check("--longest S", longestS, 1, 7200);
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
    Recording recording = use.arm(ready, line -> screen().say("mind: " + line));
    StopSignal signal = new StopSignal(() -> recording.end("Ctrl-C"), StopSignal.USUAL_S);
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

  private LiveView watch(Recording recording, RecordTrial.Ready ready, KeyWords keys)
      throws InterruptedException {
    Asset asset = ready.asset().asset();
    LiveFrame frame =
        new LiveFrame(asset.name(), ready.plan().ratedCurrentA(), ready.plan().ratedSpeedRpm());
    try (LiveScreen live = liveScreen(frame)) {
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

  private LiveScreen liveScreen(LiveFrame frame) {
    return new LiveScreen(
        screen(), frame, TerminalSize::ofTerminal, services().environment().apply("TERM"));
  }

  /** What is in memory is not given up while room can still be made. */
  private Optional<RecordedTrial> finish(Recording recording, KeyWords keys)
      throws InputProblem, InterruptedException {
    for (int tries = 1; ; tries++) {
      try {
        return recording.finish();
      } catch (InputProblem e) {
        if (tries == 1) {
          screen().say(String.valueOf(e.getMessage()));
          screen()
              .say(
                  screen().isInteractive()
                      ? "The trial is whole in memory. Make room, then r Enter to try again; q Enter"
                          + " leaves."
                      : "the trial is whole in memory and is tried again every "
                          + AGAIN_S
                          + " s for "
                          + MOST_AGAIN * AGAIN_S / 60
                          + " min; make room");
        }
        if (screen().isInteractive() ? leaves(keys) : tries > MOST_AGAIN) {
          throw e;
        }
        if (!screen().isInteractive()) {
          TimeUnit.SECONDS.sleep(AGAIN_S);
        }
      }
    }
  }

  /** Waits for the person's word; true when the trial is given up to what is on disk. */
  private static boolean leaves(KeyWords keys) throws InterruptedException {
    while (true) {
      switch (keys.next(1000)) {
        case "r" -> {
          return false;
        }
        case "q" -> {
          return true;
        }
        default -> {
          // Anything else, and nothing, means nothing.
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
    screen().say(GIVEN_UP + "; nothing was recorded");
    if (isJson()) {
      screen().raw(DeviceJson.nothing(GIVEN_UP));
    }
    return ExitCode.DONE;
  }

  private int tell(RecordedTrial trial) throws InputProblem, UsageProblem, InterruptedException {
    trial.remarks().forEach(remark -> screen().say("mind: " + remark));
    if (isJson()) {
      screen().raw(DeviceJson.recorded(trial));
      enter(trial);
      return ExitCode.DONE;
    }
    screen().line("recorded: " + trial.folder() + " (ended: " + trial.ended() + ")");
    for (DeviceQuality device : trial.quality()) {
      screen().prose("  ", device.text());
      device.gaps().forEach(gap -> screen().prose("    ", "gap " + gap.text()));
    }
    screen().line("");
    Batch batch =
        services()
            .analyzeTraces()
            .run(List.of(trial.folder()), InputChoice.DEFAULT, true, new ProgressLine(screen()));
    AnalyzeCommand.show(screen(), batch, false, false);
    screen().flush();
    enter(trial);
    return ExitCode.of(batch.standing());
  }

  /** The trial is on disk by now; whatever is wrong with a logbook is said and stops nothing. */
  private void enter(RecordedTrial trial) {
    if (logbook == null && !services().logbookUse().isNamedByEnvironment()) {
      return;
    }
    LogTrial log = services().logTrial();
    try (LogQueue queue =
        new LogQueue(one -> log.log(one, logbook), screen()::say, Duration.ofSeconds(1))) {
      queue.offer(trial.folder());
      queue.pickUp(folder);
    }
  }
}
