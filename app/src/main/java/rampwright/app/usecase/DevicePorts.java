package rampwright.app.usecase;

import java.time.Instant;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.analysis.trace.Trace;

/**
 * What stands behind everything that talks to devices.
 *
 * @param links makes connections
 * @param time the machine's clocks
 * @param permit says whether a start may be armed
 */
public record DevicePorts(Links links, Timekeeper time, ArmingPermit permit) {
  /** No devices at all. */
  public static final DevicePorts NONE =
      new DevicePorts(new NoLinks(), new StoppedTime(), ArmingPermit.UNKNOWN);

  private static final class NoLinks implements Links {
    private static final String NONE = "this program was put together without devices";

    @Override
    public RegisterPort registers(Link link) {
      throw new IllegalStateException(NONE);
    }

    @Override
    public LinePort lines(Link.Lines link) {
      throw new IllegalStateException(NONE);
    }

    @Override
    public Trace replay(ChannelMap map, Link.Replay link) throws DeviceFault {
      throw new DeviceFault(FaultKind.UNREACHABLE, NONE);
    }
  }

  private static final class StoppedTime implements Timekeeper {
    @Override
    public long nanos() {
      return 0;
    }

    @Override
    public Instant utc() {
      return Instant.EPOCH;
    }
  }
}
