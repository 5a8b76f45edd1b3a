package rampwright.acquisition.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** From readings to a trial's folder: begin, end, what belongs to it, what is said of it. */
class TrialSessionTest {
  @TempDir private Path trials;
  private final HandTime time = new HandTime();

  private TrialSession feed(RecordPlan plan, List<DeviceEvent> events) {
    TrialSession session = new TrialSession(plan, time);
    for (DeviceEvent event : events) {
      time.set(event.atNs());
      session.take(event);
      if (session.isEnded()) {
        break;
      }
    }
    return session;
  }

  private static Trace read(RecordedTrial trial) throws Exception {
    return TraceFiles.read(trial.folder().resolve("trace.csv"), ReadOptions.DEFAULT);
  }

  private static Samples channel(Trace trace, ChannelName name) {
    Samples samples = trace.channel(name);
    if (samples == null) {
      throw new AssertionError("no " + name);
    }
    return samples;
  }

  @ParameterizedTest
  @CsvSource({"CURRENT, 10.0", "SPEED, 10.6"})
  void startAndStopAreInOneTrialWithWhatWasBefore(TriggerKind on, double beginS) throws Exception {
    TrialSession session = feed(MadeStart.plan(trials, on), MadeStart.events(1));
    assertThat(session.isEnded()).isTrue();
    RecordedTrial trial = session.finish();
    assertThat(trial.ended()).isEqualTo("stopped");
    Trace trace = read(trial);
    // 5 s before the begin to 3 s after rest at 36 s
    assertThat(trace.time().atS(0)).isEqualTo(0);
    double zeroS = beginS - 5;
    double lastS = zeroS + trace.time().atS(trace.size() - 1);
    assertThat(lastS).isCloseTo(39, within(0.6));
    assertThat(trace.declaredKind()).isEqualTo(TraceKind.RMS);
    assertThat(trace.names()).containsExactly(ChannelName.I1, ChannelName.I2, ChannelName.SPEED);
    Samples current = channel(trace, ChannelName.I1);
    Samples speed = channel(trace, ChannelName.SPEED);
    for (int i = 0; i < trace.size(); i++) {
      double t = zeroS + trace.time().atS(i);
      if (Math.abs(t - 10) > 0.2 && Math.abs(t - 16) > 0.2 && Math.abs(t - 34) > 0.2) {
        // five standard deviations of the noise, and the step of time 0 itself
        assertThat(current.at(i)).isCloseTo(MadeStart.currentA(t), within(5.0));
      }
      if (!Double.isNaN(speed.at(i))) {
        // 0.2 s at 269 rpm a second, and the noise
        assertThat(speed.at(i)).isCloseTo(MadeStart.speedRpm(t), within(60.0));
      }
    }
    assertThat(trace.provenance().notes()).anyMatch(note -> note.startsWith("read from meter: "));
    assertThat(trace.provenance().notes())
        .anyMatch(note -> note.startsWith("speed: put between its own readings"));
    assertThat(Files.readString(trial.folder().resolve("settings.toml"))).startsWith("[trial]\nat");
    assertThat(trial.folder().resolve("readings.txt.gz")).exists();
    assertThat(trial.folder().resolve("readings.journal")).doesNotExist();
    assertThat(trial.folder().getFileName().toString()).matches("20260314T0912(15|16)Z");
    try (Stream<Path> left = Files.list(trials)) {
      assertThat(left).containsExactly(trial.folder());
    }
  }

  @Test
  void speedIsPutWhereItBelongsOnTheCurrentsTime() throws Exception {
    RecordedTrial trial =
        feed(MadeStart.plan(trials, TriggerKind.CURRENT), MadeStart.events(3)).finish();
    Trace trace = read(trial);
    Samples speed = channel(trace, ChannelName.SPEED);
    double worst = 0;
    int had = 0;
    for (int i = 0; i < trace.size(); i++) {
      double t = 5.0 + trace.time().atS(i);
      boolean corner =
          Math.abs(t - 10.5) < 0.15
              || Math.abs(t - 16) < 0.15
              || Math.abs(t - 30) < 0.15
              || Math.abs(t - 36) < 0.15;
      if (!corner && !Double.isNaN(speed.at(i))) {
        worst = Math.max(worst, Math.abs(speed.at(i) - MadeStart.speedRpm(t)));
        had++;
      }
    }
    // Taking the latest reading instead would be up to 0.1 s x 269 rpm/s = 27 rpm off; time 0 is
    // the first reading at or after 5 s, up to 52 ms or 14 rpm of offset, and 4 rpm of noise.
    assertThat(worst).isLessThan(20);
    assertThat(had).isGreaterThan(trace.size() * 9 / 10);
  }

  @Test
  void itEndsWhenSettledWhereThatIsWanted() throws Exception {
    TrialSession session =
        feed(
            MadeStart.plan(trials, TriggerKind.CURRENT, EndKind.SETTLED, 120), MadeStart.events(1));
    RecordedTrial trial = session.finish();
    assertThat(trial.ended()).isEqualTo("settled");
    // The plateau of the current limit from 10 to 16 s is not a run; 3 s steady and 2 s more are.
    assertThat(trial.lengthS()).isBetween(5 + 6 + 4.0, 5 + 6 + 6.0);
  }

  @Test
  void withNothingBeforeItTheFirstReadingThatShowsItIsThere() throws Exception {
    RecordPlan plan = MadeStart.plan(trials, TriggerKind.CURRENT);
    RecordPlan bare =
        new RecordPlan(
            plan.trials(),
            plan.maps(),
            plan.on(),
            plan.until(),
            0,
            10,
            plan.ratedCurrentA(),
            plan.ratedSpeedRpm(),
            null,
            List.of(),
            true);
    // At 1 Hz the second reading that confirms the begin comes a second after the first.
    List<DeviceEvent> slow = new ArrayList<>();
    for (int k = 0; k < 30; k++) {
      double a = MadeStart.currentA(k);
      slow.add(
          new DeviceEvent.Reading(
              0, 0, k * 1_000_000_000L, 1, 1, 1, new int[] {0, 1}, new double[] {a, a}, ""));
    }
    Trace trace = read(feed(bare, slow).finish());
    assertThat(channel(trace, ChannelName.I1).at(0)).isEqualTo(350);
    assertThat(trace.size()).isEqualTo(11);
  }

  @Test
  void itEndsAfterItsLongestTime() throws Exception {
    TrialSession session =
        feed(MadeStart.plan(trials, TriggerKind.CURRENT, EndKind.STOPPED, 8), MadeStart.events(1));
    RecordedTrial trial = session.finish();
    assertThat(trial.ended()).isEqualTo("longest time");
    assertThat(trial.lengthS()).isCloseTo(13, within(0.2));
  }

  @Test
  void itEndsAfterItsLongestTimeThoughNothingIsReadAnyMore() throws Exception {
    List<DeviceEvent> events = MadeStart.events(1);
    TrialSession session =
        feed(
            MadeStart.plan(trials, TriggerKind.CURRENT, EndKind.STOPPED, 30),
            events.subList(0, 400));
    session.tick();
    assertThat(session.isEnded()).isFalse();
    time.set(41_500_000_000L);
    session.tick();
    assertThat(session.isEnded()).isTrue();
    assertThat(session.finish().ended()).isEqualTo("longest time");
  }

  @Test
  void aMotorThatRunsAlreadyIsWaitedFor() throws Exception {
    List<DeviceEvent> running =
        MadeStart.events(1).stream().filter(event -> event.atNs() > 20_000_000_000L).toList();
    TrialSession session = feed(MadeStart.plan(trials, TriggerKind.CURRENT), running);
    assertThat(session.hasBegun()).isFalse();
    session.discard();
    try (Stream<Path> left = Files.list(trials)) {
      assertThat(left).isEmpty();
    }
    TrialSession waiting =
        feed(MadeStart.plan(trials, TriggerKind.CURRENT), running.subList(0, 50));
    assertThat(waiting.view().waitingFor()).startsWith("rest: it runs already");
    waiting.discard();
  }

  @Test
  void oneReadingAboveTheLevelBeginsNothing() throws Exception {
    List<DeviceEvent> events = MadeStart.events(1).subList(0, 200);
    TrialSession session = feed(MadeStart.plan(trials, TriggerKind.CURRENT), events);
    DeviceEvent.Reading spike =
        new DeviceEvent.Reading(
            0, 0, 6_800_000_000L, 0, 0, 1, new int[] {0}, new double[] {400}, "");
    session.take(spike);
    DeviceEvent.Reading rest =
        new DeviceEvent.Reading(
            0, 0, 6_850_000_000L, 0, 0, 1, new int[] {0, 1}, new double[] {0.1, 0.1}, "");
    session.take(rest);
    session.take(rest);
    assertThat(session.hasBegun()).isFalse();
    session.discard();
  }

  @Test
  void noiseAtRestBeginsNothing() throws Exception {
    // 12 A of noise on a motor of 100 A: above 5 % of rated current, yet it is rest.
    TrialSession session = new TrialSession(MadeStart.plan(trials, TriggerKind.CURRENT), time);
    java.util.Random random = new java.util.Random(6);
    for (int k = 0; k < 4000; k++) {
      double a = k < 20 ? 2 : Math.abs(3 * random.nextGaussian());
      session.take(
          new DeviceEvent.Reading(
              0, 0, k * 50_000_000L, 0, 0, 1, new int[] {0, 1}, new double[] {a, a}, ""));
    }
    assertThat(session.hasBegun()).isFalse();
    session.discard();
  }

  @Test
  void gapsAreInTheTraceWithTheirReason() throws Exception {
    List<DeviceEvent> events = new ArrayList<>(MadeStart.events(1));
    events.removeIf(
        event ->
            event.device() == 0
                && event.atNs() > 12_000_000_000L
                && event.atNs() < 13_500_000_000L);
    events.add(
        new DeviceEvent.Fault(
            0, 12_300_000_000L, FaultKind.NO_ANSWER, 2, "no answer within 300 ms\n# forged"));
    events.sort(Comparator.comparingLong(DeviceEvent::atNs));
    RecordedTrial trial = feed(MadeStart.plan(trials, TriggerKind.CURRENT), events).finish();
    DeviceQuality meter = trial.quality().get(0);
    assertThat(meter.gaps()).hasSize(1);
    assertThat(meter.gaps().get(0).fromS()).isCloseTo(7, within(0.11));
    assertThat(meter.gaps().get(0).toS()).isCloseTo(8.5, within(0.11));
    assertThat(meter.gaps().get(0).why()).startsWith("no answer within 300 ms");
    assertThat(meter.faults()).isEqualTo(1);
    assertThat(meter.retries()).isEqualTo(1);
    assertThat(meter.hz()).isCloseTo(20, within(0.5));
    Trace trace = read(trial);
    assertThat(trace.provenance().notes())
        .anyMatch(
            note ->
                note.startsWith("gap of meter: ")
                    && note.endsWith("no answer within 300 ms?# forged"));
    for (int i = 1; i < trace.size(); i++) {
      double at = trace.time().atS(i);
      assertThat(at < 7.1 || at > 8.4).as("nothing is made up in the gap: %s s", at).isTrue();
    }
  }

  /** A question asked twice that was answered at last, and one that went out late. */
  @Test
  void aGapWithoutAFaultHasItsReasonToo() throws Exception {
    List<DeviceEvent> events = new ArrayList<>(MadeStart.events(1));
    for (double fromS : new double[] {12, 20}) {
      events.removeIf(
          event ->
              event.device() == 0
                  && event.atNs() > fromS * 1e9
                  && event.atNs() < (fromS + 0.5) * 1e9);
    }
    events.add(new DeviceEvent.AskedAgain(0, 12_300_000_000L, "no answer within 300 ms"));
    events.replaceAll(
        event ->
            event instanceof DeviceEvent.Reading reading
                    && reading.device() == 0
                    && Math.abs(reading.atNs() - 20.501e9) < 5e6
                ? new DeviceEvent.Reading(
                    0,
                    0,
                    reading.atNs(),
                    reading.roundTripNs(),
                    450_000_000,
                    1,
                    reading.channels(),
                    reading.values(),
                    reading.raw())
                : event);
    events.sort(Comparator.comparingLong(DeviceEvent::atNs));
    RecordedTrial trial = feed(MadeStart.plan(trials, TriggerKind.CURRENT), events).finish();
    assertThat(trial.quality().get(0).gaps().stream().map(DeviceQuality.Gap::why))
        .containsExactly(
            "no answer within 300 ms, asked again",
            "asked 0.45 s late, the link or this machine was busy");
  }

  @Test
  void aPersonCanBeginAndEndIt() throws Exception {
    List<DeviceEvent> events = MadeStart.events(1);
    TrialSession session = new TrialSession(MadeStart.plan(trials, TriggerKind.SPEED), time);
    for (DeviceEvent event : events.subList(0, 150)) {
      session.take(event);
    }
    session.beginNow();
    for (DeviceEvent event : events.subList(150, 300)) {
      session.take(event);
    }
    assertThat(session.hasBegun()).isTrue();
    session.endNow("by hand");
    RecordedTrial trial = session.finish();
    assertThat(trial.ended()).isEqualTo("by hand");
    assertThat(trial.lengthS()).isCloseTo(10, within(0.3));
  }

  @Test
  void whatTheMapsCannotTellIsSaidBeforehand() throws Exception {
    RecordPlan plan = MadeStart.plan(trials, TriggerKind.RUN);
    assertThat(TrialSession.lack(plan))
        .isEqualTo("no map has a run command; begin on current, speed or now");
    assertThatThrownBy(() -> new TrialSession(plan, time))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** A watch and a person record the same start; nothing is written yet when the second begins. */
  @Test
  void whoeverBeginsInOneSecondHasAFolderOfHisOwn() throws Exception {
    Instant begin = Instant.parse("2026-03-14T09:12:05Z");
    Path first = TrialFolders.claim(trials, begin);
    Path second = TrialFolders.claim(trials, begin);
    assertThat(first).isEmptyDirectory().hasFileName("20260314T091205Z");
    assertThat(second).isEmptyDirectory().hasFileName("20260314T091205Z-2");
    // Claimed and never used: a process that was killed at that instant.
    assertThat(Recovery.run(trials, true).said()).isEmpty();
    assertThat(trials).isEmptyDirectory();
    Path file = Files.writeString(trials.resolve("file"), "");
    assertThat(TrialFolders.claim(file, begin)).isNotEqualTo(TrialFolders.claim(file, begin));
  }

  @Test
  void twoTrialsOfOneSecondGetFoldersOfTheirOwn() throws Exception {
    Path first =
        feed(MadeStart.plan(trials, TriggerKind.CURRENT), MadeStart.events(1)).finish().folder();
    time.set(0);
    Path second =
        feed(MadeStart.plan(trials, TriggerKind.CURRENT), MadeStart.events(1)).finish().folder();
    assertThat(second.getFileName()).hasToString(first.getFileName() + "-2");
  }

  @Test
  void aFullDiskLosesNothingThatWasReadAndIsSaid() throws Exception {
    boolean[] full = {false};
    TrialSession session =
        new TrialSession(
            MadeStart.plan(trials, TriggerKind.CURRENT),
            time,
            path -> {
              JournalFile real = JournalFile.create(path);
              return new JournalFile() {
                @Override
                public void append(byte[] bytes) throws IOException {
                  if (full[0]) {
                    throw new IOException("No space left on device");
                  }
                  real.append(bytes);
                }

                @Override
                public void force() throws IOException {
                  real.force();
                }

                @Override
                public void clear() throws IOException {
                  real.clear();
                }

                @Override
                public void close() throws IOException {
                  real.close();
                }
              };
            });
    List<DeviceEvent> events = MadeStart.events(1);
    for (int i = 0; i < events.size() && !session.isEnded(); i++) {
      if (i == 500) {
        full[0] = true;
      }
      if (i == 700) {
        for (int k = 0; k < 200 && session.view().trouble() == null; k++) {
          java.util.concurrent.TimeUnit.MILLISECONDS.sleep(20);
        }
        assertThat(session.view().trouble()).isEqualTo("No space left on device");
        full[0] = false;
      }
      session.take(events.get(i));
    }
    for (int k = 0; k < 200 && session.view().trouble() != null; k++) {
      java.util.concurrent.TimeUnit.MILLISECONDS.sleep(20);
    }
    assertThat(session.view().trouble()).isNull();
    RecordedTrial trial = session.finish();
    java.util.zip.GZIPInputStream packed =
        new java.util.zip.GZIPInputStream(
            Files.newInputStream(trial.folder().resolve("readings.txt.gz")));
    JournalText text = JournalText.of(packed.readAllBytes());
    long readings = text.events().stream().filter(e -> e instanceof DeviceEvent.Reading).count();
    assertThat(readings)
        .isEqualTo(trial.quality().stream().mapToInt(DeviceQuality::readings).sum());
    assertThat(text.end()).isNotNull();
    for (int i = 1; i < text.events().size(); i++) {
      assertThat(text.events().get(i).atNs())
          .isGreaterThanOrEqualTo(text.events().get(i - 1).atNs());
    }
  }
}
