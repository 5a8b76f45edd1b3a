package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class UpdateLockTest {
  private static final int WRITERS = 8;
  private static final int EACH = 25;

  @TempDir private Path folder;

  /** Adds one to a number in a file, the way a change is made under the lock. */
  static void addOne(Path folder) throws IOException {
    UpdateLock lock = UpdateLock.of(folder);
    try {
      Path file = folder.resolve("number");
      int number = Files.exists(file) ? Integer.parseInt(Files.readString(file)) : 0;
      AtomicFile.write(file, Integer.toString(number + 1).getBytes());
    } finally {
      lock.close();
    }
  }

  /** A program of its own, for locks between programs. */
  static final class Adder {
    public static void main(String[] args) throws IOException {
      for (int k = 0; k < EACH; k++) {
        addOne(Path.of(args[0]));
      }
    }
  }

  @Test
  void threadsOfOneProgramTakeTurns() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(WRITERS);
    List<Future<?>> all = new ArrayList<>();
    for (int w = 0; w < WRITERS; w++) {
      Callable<Void> work =
          () -> {
            for (int k = 0; k < EACH; k++) {
              addOne(folder);
            }
            return null;
          };
      all.add(pool.submit(work));
    }
    for (Future<?> one : all) {
      one.get();
    }
    pool.shutdown();
    assertThat(folder.resolve("number")).hasContent(Integer.toString(WRITERS * EACH));
  }

  @Test
  void programsTakeTurns() throws Exception {
    List<Process> programs = new ArrayList<>();
    for (int p = 0; p < 3; p++) {
      programs.add(
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  System.getProperty("java.class.path"),
                  Adder.class.getName(),
                  folder.toString())
              .redirectErrorStream(true)
              .start());
    }
    for (int k = 0; k < EACH; k++) {
      addOne(folder);
    }
    for (Process one : programs) {
      String said = new String(one.getInputStream().readAllBytes());
      assertThat(one.waitFor()).as(said).isZero();
    }
    assertThat(folder.resolve("number")).hasContent(Integer.toString(4 * EACH));
  }

  @Test
  void aFolderThatIsNotThereIsSaid() {
    assertThatThrownBy(() -> UpdateLock.of(folder.resolve("none"))).isInstanceOf(IOException.class);
  }
}
