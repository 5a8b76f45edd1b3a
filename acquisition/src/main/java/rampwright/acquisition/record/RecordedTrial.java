package rampwright.acquisition.record;

import java.nio.file.Path;
import java.util.List;

/**
 * A trial that is on disk.
 *
 * @param folder its folder
 * @param ended why it ended
 * @param lengthS how long its trace is, s
 * @param quality how each device was read
 * @param remarks what is to be known about it; one line each
 */
public record RecordedTrial(
    Path folder, String ended, double lengthS, List<DeviceQuality> quality, List<String> remarks) {
  public RecordedTrial {
    quality = List.copyOf(quality);
    remarks = List.copyOf(remarks);
  }
}
