package rampwright.acquisition.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;

/**
 * What a journal says.
 *
 * @param devices the devices, by their numbers
 * @param clock the two clocks at one instant; null when it was lost
 * @param armedNs when the recording was armed, by which two files of one recording know each other
 * @param events readings and faults in order
 * @param begin the begin; null when nothing had begun
 * @param end the end; null when it was cut short
 * @param lostBytes bytes at the end that are no whole line
 */
record JournalText(
    List<JournalLine.Device> devices,
    JournalLine.@Nullable Clock clock,
    @Nullable Long armedNs,
    List<DeviceEvent> events,
    JournalLine.@Nullable Begin begin,
    JournalLine.@Nullable End end,
    long lostBytes) {

  /**
   * Reads as far as lines are whole; what comes after the first one that is not was being written
   * when the writer ended.
   *
   * @throws JournalVersionException when a newer program has written it
   */
  static JournalText of(byte[] bytes) throws JournalVersionException {
    List<JournalLine.Device> devices = new ArrayList<>();
    List<DeviceEvent> events = new ArrayList<>();
    JournalLine.Clock clock = null;
    Long armedNs = null;
    JournalLine.Begin begin = null;
    JournalLine.End end = null;
    int from = 0;
    while (from < bytes.length) {
      int feed = from;
      while (feed < bytes.length && bytes[feed] != '\n') {
        feed++;
      }
      if (feed == bytes.length) {
        break;
      }
      byte[] text = new byte[feed - from];
      System.arraycopy(bytes, from, text, 0, text.length);
      JournalLine line = JournalLine.parse(text, text.length);
      if (line == null) {
        break;
      }
      if (line instanceof JournalLine.Head head && head.version() != JournalLine.VERSION) {
        throw new JournalVersionException(head.version());
      } else if (line instanceof JournalLine.Device device) {
        devices.add(device);
      } else if (line instanceof JournalLine.Clock read) {
        clock = read;
        armedNs = armedNs == null ? Long.valueOf(read.atNs()) : armedNs;
      } else if (line instanceof JournalLine.Event event) {
        events.add(event.event());
      } else if (line instanceof JournalLine.Begin read) {
        begin = read;
      } else if (line instanceof JournalLine.End read) {
        end = read;
      }
      from = feed + 1;
    }
    return new JournalText(devices, clock, armedNs, events, begin, end, bytes.length - from);
  }
}
