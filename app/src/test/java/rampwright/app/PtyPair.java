package rampwright.app;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** Two pseudo-terminals joined by socat: what goes in at one comes out at the other. */
final class PtyPair implements AutoCloseable {
  private final Process socat;
  private final Path own;
  private final Path other;

  /** Makes a pair; skips the test where socat is not there. */
  PtyPair(Path folder) throws Exception {
    assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/socat")), "socat is not installed (Debian: socat)");
    own = folder.resolve("own");
    other = folder.resolve("other");
    socat =
        new ProcessBuilder("socat", "pty,raw,echo=0,link=" + own, "pty,raw,echo=0,link=" + other)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    for (int i = 0; !(Files.exists(own) && Files.exists(other)); i++) {
      if (i > 500) {
        socat.destroyForcibly();
        throw new IllegalStateException("socat made no pseudo-terminals");
      }
      TimeUnit.MILLISECONDS.sleep(20);
    }
  }

  Path own() {
    return own;
  }

  Path other() {
    return other;
  }

  @Override
  public void close() {
    socat.destroyForcibly();
    socat.onExit().join();
  }
}
