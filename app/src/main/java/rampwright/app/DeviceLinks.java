package rampwright.app;

import java.nio.file.Path;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.file.TraceFiles;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.modbus.RtuPort;
import rampwright.acquisition.modbus.TcpPort;
import rampwright.acquisition.serial.SerialLinePort;
import rampwright.analysis.trace.Trace;

/** Real connections. */
final class DeviceLinks implements Links {
  private final Timekeeper time;

  DeviceLinks(Timekeeper time) {
    this.time = time;
  }

  @Override
  public RegisterPort registers(Link link) {
    if (link instanceof Link.Rtu rtu) {
      return new RtuPort(rtu, time);
    }
    if (link instanceof Link.Tcp tcp) {
      return new TcpPort(tcp, time);
    }
    throw new IllegalArgumentException(link.key() + " has no registers");
  }

  @Override
  public LinePort lines(Link.Lines link) {
    return new SerialLinePort(link, time);
  }

  @Override
  public Trace replay(ChannelMap map, Link.Replay link) throws DeviceFault {
    Path file = Path.of(link.file());
    Path folder = map.file() == null ? null : map.file().toAbsolutePath().getParent();
    try {
      return TraceFiles.read(folder == null ? file : folder.resolve(file), ReadOptions.DEFAULT);
    } catch (TraceFileException e) {
      throw new DeviceFault(FaultKind.UNREACHABLE, String.valueOf(e.getMessage()), e);
    }
  }
}
