package rampwright.acquisition.record;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.MapFiles;

/**
 * A process to be killed: records one trial after the other from readings it makes up, and says
 * each reading's number and instant once it has handed it over.
 */
public final class KillRig {
  static final double PRE_S = 0.5;
  private static final int STEP_MS = 5;
  private static final int REST = 60;
  private static final int FLOW = 200;

  private KillRig() {}

  static List<ChannelMap> maps() throws Exception {
    return List.of(
        MapFiles.parse(
            "rig",
            """
            [device]
            name = "rig"
            link = "tcp"
            host = "127.0.0.1"
            poll_hz = 200
            [[channel]]
            name = "i1"
            function = 3
            address = 0
            type = "u16"
            unit = "A"
            [[channel]]
            name = "power"
            function = 3
            address = 1
            type = "f32"
            unit = "W"
            """));
  }

  public static void main(String[] args) throws Exception {
    Path trials = Path.of(args[0]);
    RealTime time = new RealTime();
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.US_ASCII);
    RecordPlan plan =
        new RecordPlan(
            trials,
            maps(),
            TriggerKind.CURRENT,
            EndKind.STOPPED,
            PRE_S,
            60,
            100,
            1480,
            (at, remark) -> "[trial]\nat = " + at + "\n",
            List.of(),
            true);
    int number = 0;
    out.println("ready");
    while (true) {
      TrialSession session = new TrialSession(plan, time);
      out.println("armed " + number);
      boolean said = false;
      for (int i = 0; i < REST + FLOW; i++) {
        double a = i >= REST ? 350 : 0.1 * (i % 5);
        long atNs = time.nanos();
        session.take(
            new DeviceEvent.Reading(
                0, 0, atNs, 1, 1, 1, new int[] {0, 1}, new double[] {a, number}, "0000"));
        out.println("r " + number + " " + atNs);
        number++;
        if (session.hasBegun() && !said) {
          said = true;
          out.println("begun " + (number - 1));
        }
        TimeUnit.MILLISECONDS.sleep(STEP_MS);
      }
      session.endNow("enough");
      session.finish();
      out.println("finished " + (number - 1));
    }
  }
}
