package rampwright.acquisition.device;

import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.analysis.trace.Trace;

/** Makes ports; the libraries stand behind it. */
public interface Links {
  /** A port for a {@link Link.Tcp} or {@link Link.Rtu}; opens nothing yet. */
  RegisterPort registers(Link link);

  /** A port for an instrument's lines; opens nothing yet. */
  LinePort lines(Link.Lines link);

  /**
   * The trace a map plays again.
   *
   * @throws DeviceFault when it cannot be read
   */
  Trace replay(ChannelMap map, Link.Replay link) throws DeviceFault;
}
