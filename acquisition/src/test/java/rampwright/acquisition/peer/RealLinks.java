package rampwright.acquisition.peer;

import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.modbus.RtuPort;
import rampwright.acquisition.modbus.TcpPort;
import rampwright.acquisition.serial.SerialLinePort;
import rampwright.analysis.trace.Trace;

/** Real connections, as the program makes them; nothing is played again here. */
public final class RealLinks implements Links {
  private final Timekeeper time;

  /** Connections dated by a clock. */
  public RealLinks(Timekeeper time) {
    this.time = time;
  }

  @Override
  public RegisterPort registers(Link link) {
    return link instanceof Link.Rtu rtu
        ? new RtuPort(rtu, time)
        : new TcpPort((Link.Tcp) link, time);
  }

  @Override
  public LinePort lines(Link.Lines link) {
    return new SerialLinePort(link, time);
  }

  @Override
  public Trace replay(ChannelMap map, Link.Replay link) {
    throw new AssertionError("nothing is played here");
  }
}
