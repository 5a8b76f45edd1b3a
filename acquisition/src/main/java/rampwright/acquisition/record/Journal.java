package rampwright.acquisition.record;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.file.AtomicFile;

/**
 * Puts readings on disk as they come, by a thread of its own. Everything handed over is written and
 * forced at least every {@value #FLUSH_MS} ms plus the disk's own time. While waiting for the begin
 * two files in a hidden folder take turns, so that they never hold more than twice the time before
 * the begin; with the begin everything still held goes into the trial's own folder.
 *
 * <p>When the disk takes no more, lines are kept in memory and tried again; nothing is thrown away
 * but the oldest beyond {@value #MOST_PENDING} bytes, and that is told.
 */
final class Journal {
  /** The name of a journal in a trial's folder. */
  static final String NAME = "readings.journal";

  /** A fifth of what is promised (250 ms), so that a slow disk has the rest. */
  static final int FLUSH_MS = 50;

  static final int MOST_PENDING = 64 << 20;

  private final Timekeeper time;
  private final JournalFile.Opener opener;
  private final List<byte[]> head;
  private final long preNs;
  private final Thread thread;
  private final @Nullable Path armedFolder;

  private final List<byte[]> pending = new ArrayList<>();
  private long pendingBytes;
  private long dropped;
  private @Nullable Path trialFolder;
  private byte @Nullable [] settings;
  private List<byte[]> carried = List.of();
  private boolean closing;
  private @Nullable String trouble;
  private long longestUnsafeNs;

  // Used by the thread alone.
  private @Nullable JournalFile armedFile;
  private @Nullable JournalFile armedOther;
  private long armedSinceNs;
  private @Nullable JournalFile trialFile;
  private boolean unforced;

  /**
   * A journal; its thread begins at once.
   *
   * @param head lines every file begins with
   * @param armedFolder where readings go before the begin; null to keep them in memory only
   */
  Journal(
      List<byte[]> head,
      @Nullable Path armedFolder,
      double preS,
      Timekeeper time,
      JournalFile.Opener opener) {
    this.head = List.copyOf(head);
    this.armedFolder = armedFolder;
    this.preNs = Math.round(preS * 1e9);
    this.time = time;
    this.opener = opener;
    this.thread = new Thread(this::run, "journal");
    thread.setDaemon(true);
    thread.start();
  }

  /** Hands a line over. */
  synchronized void append(byte[] line) {
    if (trialFolder == null && armedFolder == null) {
      return;
    }
    pending.add(line);
    pendingBytes += line.length;
    while (pendingBytes > MOST_PENDING && !pending.isEmpty()) {
      pendingBytes -= pending.remove(0).length;
      dropped++;
    }
  }

  /**
   * The trial begins: from here on lines go into its folder.
   *
   * @param lines everything that belongs to it so far; they take the place of what is pending
   * @param settingsText content of its {@code settings.toml}; null for none
   */
  synchronized void begin(Path folder, List<byte[]> lines, byte @Nullable [] settingsText) {
    settings = settingsText;
    carried = List.copyOf(lines);
    pending.clear();
    pendingBytes = 0;
    trialFolder = folder;
    notifyAll();
  }

  /** Why lines are not on disk; null while all is well. */
  synchronized @Nullable String trouble() {
    return trouble;
  }

  /** How many lines were given up for want of memory. */
  synchronized long dropped() {
    return dropped;
  }

  /** The longest a line was in memory only, ns. */
  synchronized long longestUnsafeNs() {
    return longestUnsafeNs;
  }

  /** Writes what is left and ends; the files stay. */
  void close() throws InterruptedException {
    synchronized (this) {
      closing = true;
      notifyAll();
    }
    thread.join();
  }

  /** Removes what was kept before the begin. */
  void removeArmed() throws IOException {
    Path folder = armedFolder;
    if (folder != null && Files.isDirectory(folder)) {
      for (String name : List.of("a", "b")) {
        Files.deleteIfExists(folder.resolve(name));
      }
      Files.deleteIfExists(folder);
    }
  }

  private void run() {
    boolean last = false;
    long emptiedNs = time.nanos();
    try {
      openArmed();
    } catch (IOException e) {
      keep(List.of(), e);
    }
    while (!last) {
      List<byte[]> lines;
      Path folder;
      long oldestNs = emptiedNs;
      synchronized (this) {
        try {
          if (!closing) {
            wait(FLUSH_MS);
          }
        } catch (InterruptedException e) {
          closing = true;
        }
        last = closing;
        folder = trialFolder;
        lines = new ArrayList<>(carried);
        lines.addAll(pending);
        carried = List.of();
        pending.clear();
        pendingBytes = 0;
        emptiedNs = time.nanos();
      }
      try {
        if (folder != null) {
          writeTrial(folder, lines);
        } else {
          writeArmed(lines);
        }
        noteSafe(oldestNs);
      } catch (IOException e) {
        keep(lines, e);
      }
    }
    closeFiles();
  }

  private synchronized void noteSafe(long oldestNs) {
    trouble = null;
    longestUnsafeNs = Math.max(longestUnsafeNs, time.nanos() - oldestNs);
  }

  private synchronized void keep(List<byte[]> lines, IOException e) {
    // Behind what came meanwhile would be the wrong order.
    pending.addAll(0, lines);
    for (byte[] line : lines) {
      pendingBytes += line.length;
    }
    String message = e.getMessage();
    trouble = message == null ? e.getClass().getSimpleName() : message;
  }

  private void writeTrial(Path folder, List<byte[]> lines) throws IOException {
    JournalFile file = trialFile;
    if (file == null) {
      Files.createDirectories(folder);
      Path path = folder.resolve(NAME);
      file = opener.open(path);
      try {
        file.append(joined(head));
      } catch (IOException e) {
        file.close();
        Files.deleteIfExists(path);
        throw e;
      }
      trialFile = file;
      // A file whose name is lost is lost.
      AtomicFile.forceNames(folder);
      Path trials = folder.getParent();
      if (trials != null) {
        AtomicFile.forceNames(trials);
      }
    }
    if (!lines.isEmpty()) {
      file.append(joined(lines));
      // They are in the file; should forcing fail, they must not be written again.
      lines.clear();
      unforced = true;
    }
    if (unforced) {
      file.force();
      unforced = false;
    }
    writeSettings(folder);
    if (armedFile != null || armedOther != null) {
      closeArmed();
      removeArmed();
    }
  }

  private void writeSettings(Path folder) throws IOException {
    byte[] text;
    synchronized (this) {
      text = settings;
    }
    if (text != null) {
      AtomicFile.write(folder.resolve(TrialFolders.SETTINGS), text);
      synchronized (this) {
        settings = null;
      }
    }
  }

  /** Opens the files beforehand: that takes as long as many readings. */
  private void openArmed() throws IOException {
    Path folder = armedFolder;
    if (folder == null || armedOther != null) {
      return;
    }
    Files.createDirectories(folder);
    JournalFile first = armedFile == null ? opener.open(folder.resolve("a")) : armedFile;
    armedFile = first;
    first.clear();
    first.append(joined(head));
    first.force();
    armedOther = opener.open(folder.resolve("b"));
    armedSinceNs = time.nanos();
  }

  private void writeArmed(List<byte[]> lines) throws IOException {
    openArmed();
    JournalFile file = armedFile;
    JournalFile other = armedOther;
    if (file == null || other == null || lines.isEmpty()) {
      return;
    }
    long now = time.nanos();
    if (now - armedSinceNs > preNs) {
      other.clear();
      other.append(joined(head));
      armedOther = file;
      armedFile = other;
      file = other;
      armedSinceNs = now;
    }
    file.append(joined(lines));
    lines.clear();
    file.force();
  }

  private void closeArmed() throws IOException {
    for (JournalFile file : new JournalFile[] {armedFile, armedOther}) {
      if (file != null) {
        file.close();
      }
    }
    armedFile = null;
    armedOther = null;
  }

  private void closeFiles() {
    try {
      closeArmed();
      if (trialFile != null) {
        trialFile.close();
      }
    } catch (IOException e) {
      synchronized (this) {
        trouble = String.valueOf(e.getMessage());
      }
    }
  }

  private static byte[] joined(List<byte[]> lines) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    lines.forEach(all::writeBytes);
    return all.toByteArray();
  }
}
