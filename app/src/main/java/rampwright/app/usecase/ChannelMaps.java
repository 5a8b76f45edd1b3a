package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.toml.TomlProblemsException;

/** Channel maps a person named. */
final class ChannelMaps {
  private ChannelMaps() {}

  static List<ChannelMap> read(List<Path> paths) throws InputProblem, UsageProblem {
    List<ChannelMap> maps = new ArrayList<>();
    for (Path path : paths) {
      try {
        maps.add(MapFiles.read(path));
      } catch (IOException e) {
        throw InputProblem.of(e, path);
      } catch (TomlProblemsException e) {
        throw InputProblem.of(e);
      }
    }
    String conflict = DeviceSet.conflict(maps);
    if (!conflict.isEmpty()) {
      throw new UsageProblem(conflict);
    }
    return maps;
  }
}
