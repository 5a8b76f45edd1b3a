package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;

/** Port: the samples that come with the program. */
public interface SampleSource {
  /** Copies the sample asset folders into a folder that is there, and says how many there are. */
  int copyInto(Path folder) throws IOException;
}
