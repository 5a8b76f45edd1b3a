package rampwright.acquisition.record;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.trace.Trace;

/** What is made of journals that end anywhere, and of those that are hostile. */
class RecoveryTest {
  @TempDir private Path trials;

  private static byte[] journal(int readings, boolean ended) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new JournalLine.Head(JournalLine.VERSION).bytes());
    out.writeBytes(JournalLine.device(0, MadeStart.maps().get(0)).bytes());
    out.writeBytes(JournalLine.device(1, MadeStart.maps().get(1)).bytes());
    out.writeBytes(
        new JournalLine.Clock(9_000_000_000L, Instant.parse("2026-03-14T09:12:05Z")).bytes());
    out.writeBytes(new JournalLine.Begin(10_000_000_000L, "current above 5 A").bytes());
    for (DeviceEvent event : MadeStart.events(1).subList(0, readings)) {
      out.writeBytes(new JournalLine.Event(event).bytes());
    }
    if (ended) {
      out.writeBytes(new JournalLine.End(60_000_000_000L, "stopped").bytes());
    }
    return out.toByteArray();
  }

  private Path put(String name, byte[] bytes) throws Exception {
    Path folder = Files.createDirectories(trials.resolve(name));
    Files.write(folder.resolve(Journal.NAME), bytes);
    return folder;
  }

  @Test
  void everyLineComesBackAsItWas() throws Exception {
    List<JournalLine> lines =
        List.of(
            new JournalLine.Head(1),
            new JournalLine.Device(3, "na\tme %", "m/\u0007", "i1,speed"),
            new JournalLine.Clock(-5, Instant.parse("2026-03-14T09:12:05.123456789Z")),
            new JournalLine.Begin(7, "by\nhand"),
            new JournalLine.End(8, "\ud83d\ude00 *"),
            new JournalLine.Event(
                new DeviceEvent.Fault(1, 2, FaultKind.GARBAGE, 3, "\u001b[31m\u0085")),
            new JournalLine.Event(new DeviceEvent.AskedAgain(1, 2, "no answer%")),
            new JournalLine.Event(new DeviceEvent.Ended(1, 2)));
    for (JournalLine line : lines) {
      byte[] bytes = line.bytes();
      assertThat(bytes[bytes.length - 1]).isEqualTo((byte) '\n');
      for (int i = 0; i < bytes.length - 1; i++) {
        assertThat(bytes[i] & 0xff).isNotIn(0x0a, 0x0d, 0x1b, 0x07);
      }
      assertThat(JournalLine.parse(bytes, bytes.length - 1)).isEqualTo(line);
    }
  }

  @Test
  void everyBentByteOfALineIsNoticed() {
    byte[] bytes =
        new JournalLine.Event(
                new DeviceEvent.Reading(
                    0, 0, 5, 6, 7, 1, new int[] {0}, new double[] {12.5}, "00FF"))
            .bytes();
    for (int at = 0; at < bytes.length - 1; at++) {
      for (int bit = 0; bit < 8; bit++) {
        byte[] bent = bytes.clone();
        bent[at] ^= (byte) (1 << bit);
        assertThat(JournalLine.parse(bent, bent.length - 1)).isNull();
      }
    }
  }

  @Test
  void aJournalCutAnywhereIsAValidTrialOfWhatWasWhole() throws Exception {
    byte[] whole = journal(60, false);
    int headEnd = new String(whole, StandardCharsets.UTF_8).indexOf("reading");
    Random random = new Random(8);
    for (int round = 0; round < 60; round++) {
      int cut = headEnd + random.nextInt(whole.length - headEnd);
      Path folder = put("t" + round, Arrays.copyOf(whole, cut));
      int lines = 0;
      for (int i = headEnd; i < cut; i++) {
        lines += whole[i] == '\n' ? 1 : 0;
      }
      List<String> said = Recovery.run(trials, true).said();
      long meter =
          MadeStart.events(1).subList(0, lines).stream().filter(e -> e.device() == 0).count();
      if (meter < 2 && lines - meter < 2) {
        assertThat(said.get(0)).contains("nothing to recover");
        assertThat(folder).doesNotExist();
        continue;
      }
      if (!Files.exists(folder.resolve("trace.csv"))) {
        throw new AssertionError(said.toString());
      }
      assertThat(said).hasSize(1);
      assertThat(said.get(0)).contains("cut short is recovered", lines + " readings");
      Trace trace = TraceFiles.read(folder.resolve("trace.csv"), ReadOptions.DEFAULT);
      assertThat(trace.size()).isPositive();
      assertThat(trace.provenance().startUtc()).startsWith("2026-03-14T09:11:5");
      assertThat(folder.resolve("readings.txt.gz")).exists();
    }
    assertThat(Recovery.run(trials, true).said()).as("done once").isEmpty();
  }

  @Test
  void whatIsBeingWrittenIsLeftAlone() throws Exception {
    HandTime time = new HandTime();
    TrialSession session = new TrialSession(MadeStart.plan(trials, TriggerKind.NOW), time);
    for (DeviceEvent event : MadeStart.events(1).subList(0, 100)) {
      session.take(event);
    }
    Path journal = null;
    for (int i = 0; i < 200 && journal == null; i++) {
      java.util.concurrent.TimeUnit.MILLISECONDS.sleep(20);
      try (Stream<Path> files = Files.walk(trials)) {
        journal = files.filter(f -> f.endsWith(Journal.NAME)).findFirst().orElse(null);
      }
    }
    assertThat(Recovery.run(trials, true).said()).isEmpty();
    session.endNow("by hand");
    assertThat(session.finish().lengthS()).isPositive();
  }

  @Test
  void aJournalOfANewerProgramIsLeftAsItIs() throws Exception {
    Path folder = put("new", new JournalLine.Head(2).bytes());
    List<String> said = Recovery.run(trials, true).said();
    assertThat(said.get(0)).contains("left as it is", "form 2", "use the program that wrote it");
    assertThat(folder.resolve(Journal.NAME)).exists();
  }

  @Test
  void aTraceThatIsThereIsNotMadeAgain() throws Exception {
    Path folder = put("done", journal(60, true));
    Files.writeString(folder.resolve("trace.csv"), "time_s,i1_A\n0,1\n1,2\n");
    assertThat(Recovery.run(trials, true).said()).isEmpty();
    assertThat(Files.readString(folder.resolve("trace.csv"))).startsWith("time_s,i1_A\n0,1");
    assertThat(folder.resolve(Journal.NAME)).doesNotExist();
  }

  @Test
  void readingsAtRestAreKeptOrRemovedAsWantedAndItIsSaid() throws Exception {
    for (boolean keep : new boolean[] {true, false}) {
      Path armed = Files.createDirectories(trials.resolve(".armed-1-1"));
      String text = new String(journal(30, false), StandardCharsets.UTF_8);
      String unbegun =
          text.lines().filter(l -> !l.startsWith("begin")).reduce("", (a, b) -> a + b + "\n");
      Files.writeString(armed.resolve("b"), unbegun);
      Files.write(armed.resolve("a"), new byte[0]);
      List<String> said = Recovery.run(trials, keep).said();
      assertThat(said).hasSize(1);
      assertThat(said.get(0))
          .contains(keep ? "30 readings; nothing had begun yet" : "readings at rest are removed");
      assertThat(armed).doesNotExist();
    }
    try (Stream<Path> left = Files.list(trials)) {
      assertThat(left).hasSize(1);
    }
  }
}
