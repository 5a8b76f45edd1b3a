package rampwright.acquisition.watch;

import java.nio.file.Path;
import java.util.List;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.record.EndKind;
import rampwright.acquisition.record.RecordPlan;
import rampwright.acquisition.record.TriggerKind;

/** Assets to watch: one current, read 50 times a second, recorded for 1.5 s from its begin. */
final class WatchStations {
  static final double LONGEST_S = 1.5;

  private WatchStations() {}

  static Station of(Path folder, String name) throws Exception {
    return new Station(
        name,
        new RecordPlan(
            folder.resolve(name).resolve("trials"),
            List.of(
                MapFiles.parse(
                    "m",
                    "[device]\nname = \"meter\"\nlink = \"tcp\"\nhost = \"x\"\npoll_hz = 50\n"
                        + "[[channel]]\nname = \"i1\"\nfunction = 3\naddress = 0\n"
                        + "type = \"u16\"\nunit = \"A\"\n")),
            TriggerKind.CURRENT,
            EndKind.STOPPED,
            0.5,
            LONGEST_S,
            100,
            1480,
            (at, remark) -> "[trial]\nat = " + at + "\n",
            List.of(WatchEngine.MARK),
            false));
  }
}
