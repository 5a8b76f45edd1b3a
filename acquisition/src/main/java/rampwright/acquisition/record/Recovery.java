package rampwright.acquisition.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;

/**
 * Makes trials of what recordings left that did not come to their end: the process was killed, the
 * machine lost power, the disk was full. Leaves alone what another process is writing.
 */
public final class Recovery {
  private static final long LARGEST_BYTES = 1L << 30;

  /**
   * What was done.
   *
   * @param said one line each
   * @param trials folders of the trials that were made
   */
  public record Recovered(List<String> said, List<Path> trials) {
    private void made(RecordedTrial made, JournalText text, String more) {
      trials.add(made.folder());
      said.add(
          String.format(
              Locale.ROOT,
              "%s: a recording that was cut short is recovered: %.2f s, %d readings%s%s%s",
              made.folder(),
              made.lengthS(),
              made.quality().stream().mapToInt(DeviceQuality::readings).sum(),
              text.end() == null ? "" : ", to its end",
              text.lostBytes() == 0
                  ? ""
                  : ", " + text.lostBytes() + " bytes of a half-written line left out",
              more));
    }
  }

  private Recovery() {}

  /**
   * Looks through a folder of trials and mends what it finds.
   *
   * @param keepUnbegun whether readings of a recording that was armed and had not begun become a
   *     trial too; else they are removed and that is said
   * @return what was done; nothing said when there was nothing to do
   */
  public static Recovered run(Path trials, boolean keepUnbegun) throws IOException {
    Recovered done = new Recovered(new ArrayList<>(), new ArrayList<>());
    if (Files.isDirectory(trials)) {
      run(trials, keepUnbegun, done);
    }
    return new Recovered(List.copyOf(done.said()), List.copyOf(done.trials()));
  }

  private static void run(Path trials, boolean keepUnbegun, Recovered done) throws IOException {
    TrialFolders.removeUnused(trials);
    List<Path> folders;
    try (Stream<Path> entries = Files.list(trials)) {
      folders = entries.filter(Files::isDirectory).sorted().toList();
    }
    // Trials first: a recording that was cut short just after its begin left both.
    Set<Long> begun = new HashSet<>();
    for (Path folder : folders) {
      if (Files.exists(folder.resolve(Journal.NAME))) {
        trial(folder, done, begun);
      }
    }
    for (Path folder : folders) {
      if (String.valueOf(folder.getFileName()).startsWith(TrialFolders.ARMED)) {
        armed(trials, folder, keepUnbegun, done, begun);
      }
    }
  }

  private static void trial(Path folder, Recovered done, Set<Long> begun) throws IOException {
    Path journal = folder.resolve(Journal.NAME);
    try (FileChannel channel =
        FileChannel.open(journal, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
      FileLock lock = JournalFile.lock(channel);
      if (lock == null) {
        return;
      }
      if (Files.exists(folder.resolve(TrialFolders.TRACE))) {
        // The trace is written whole or not at all; only the tidying up was missed.
        TrialWriter.pack(folder);
        return;
      }
      JournalText text = JournalText.of(bytes(channel));
      JournalLine.Begin begin = text.begin();
      TrialBuilder.Built built =
          begin == null ? null : build(text, begin.why(), "the recording was cut short");
      if (begin == null || built == null) {
        done.said.add(
            folder
                + ": the recording was cut short before two readings were on disk; "
                + "nothing to recover, the folder is removed");
        removeEmptyTrial(folder);
        return;
      }
      Long armedNs = text.armedNs();
      if (armedNs != null) {
        begun.add(armedNs);
      }
      removeParts(folder);
      RecordedTrial made =
          TrialWriter.write(folder, built, null, text.clock(), begin, "cut short", List.of());
      done.made(made, text, "");
    } catch (JournalVersionException e) {
      done.said.add(folder + ": left as it is: " + e.getMessage());
    }
  }

  /** Removes the folder of a trial that has nothing in it. */
  static void removeEmptyTrial(Path folder) throws IOException {
    Files.deleteIfExists(folder.resolve(Journal.NAME));
    Files.deleteIfExists(folder.resolve(TrialFolders.SETTINGS));
    removeParts(folder);
    Files.deleteIfExists(folder);
  }

  /** Removes files that were being written when the process ended. */
  private static void removeParts(Path folder) throws IOException {
    List<Path> parts;
    try (Stream<Path> files = Files.list(folder)) {
      parts =
          files.filter(file -> String.valueOf(file.getFileName()).matches("\\..*\\.part")).toList();
    }
    for (Path part : parts) {
      Files.delete(part);
    }
  }

  private static void armed(Path trials, Path folder, boolean keep, Recovered done, Set<Long> begun)
      throws IOException {
    List<JournalText> texts = new ArrayList<>();
    try (FileChannel a = open(folder.resolve("a"));
        FileChannel b = open(folder.resolve("b"))) {
      for (FileChannel channel : new @Nullable FileChannel[] {a, b}) {
        if (channel == null) {
          continue;
        }
        if (JournalFile.lock(channel) == null) {
          return;
        }
        texts.add(JournalText.of(bytes(channel)));
      }
    } catch (JournalVersionException e) {
      done.said.add(folder + ": left as it is: " + e.getMessage());
      return;
    }
    // The other file has taken over if the process died between beginning a trial and tidying up.
    texts.sort(Comparator.comparingLong(Recovery::firstNs));
    JournalText all = joined(texts);
    if (all != null && begun.contains(all.armedNs())) {
      // Its readings are in the trial.
      removeArmed(folder);
      return;
    }
    if (all == null || !keep) {
      done.said.add(
          folder.getFileName()
              + ": a recording was armed and ended before anything began; "
              + (all == null ? "it had no readings" : "its readings at rest are removed"));
    } else {
      JournalLine.Begin begin =
          new JournalLine.Begin(all.events().get(0).atNs(), "nothing: it was waiting");
      TrialBuilder.Built built =
          build(
              new JournalText(
                  all.devices(),
                  all.clock(),
                  all.armedNs(),
                  all.events(),
                  begin,
                  null,
                  all.lostBytes()),
              begin.why(),
              "the recording was cut short while it waited for a begin");
      JournalLine.Clock clock = all.clock();
      if (built != null && clock != null) {
        Path target =
            TrialFolders.claim(trials, clock.utc().plusNanos(begin.atNs() - clock.atNs()));
        RecordedTrial made =
            TrialWriter.write(target, built, null, clock, begin, "cut short", List.of());
        done.made(made, all, "; nothing had begun yet");
      }
    }
    removeArmed(folder);
  }

  private static void removeArmed(Path folder) throws IOException {
    for (String name : List.of("a", "b")) {
      Files.deleteIfExists(folder.resolve(name));
    }
    Files.deleteIfExists(folder);
  }

  private static @Nullable FileChannel open(Path path) throws IOException {
    return Files.exists(path)
        ? FileChannel.open(path, StandardOpenOption.READ, StandardOpenOption.WRITE)
        : null;
  }

  private static long firstNs(JournalText text) {
    return text.events().isEmpty() ? Long.MAX_VALUE : text.events().get(0).atNs();
  }

  private static @Nullable JournalText joined(List<JournalText> texts) {
    List<DeviceEvent> events = new ArrayList<>();
    long lost = 0;
    JournalText last = null;
    for (JournalText text : texts) {
      events.addAll(text.events());
      lost += text.lostBytes();
      last = text.events().isEmpty() ? last : text;
    }
    return last == null
        ? null
        : new JournalText(last.devices(), last.clock(), last.armedNs(), events, null, null, lost);
  }

  private static TrialBuilder.@Nullable Built build(JournalText text, String why, String remark) {
    List<String> notes = new ArrayList<>();
    notes.add("began by " + why + ", " + remark + " and recovered from its journal");
    return TrialBuilder.build(text.devices(), text.clock(), text.events(), Long.MIN_VALUE, notes);
  }

  private static byte[] bytes(FileChannel channel) throws IOException {
    long size = channel.size();
    if (size > LARGEST_BYTES) {
      throw new IOException("the journal is larger than 1 GiB; it is no recording of a start");
    }
    ByteBuffer buffer = ByteBuffer.allocate((int) size);
    while (buffer.hasRemaining() && channel.read(buffer, buffer.position()) >= 0) {
      // until all of it is there
    }
    return buffer.array();
  }
}
