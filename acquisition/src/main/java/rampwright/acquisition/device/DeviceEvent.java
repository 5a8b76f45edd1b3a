package rampwright.acquisition.device;

/** What a device said, or did not say. */
public sealed interface DeviceEvent {
  /** Which device, index into the maps. */
  int device();

  /** When, on the monotonic clock, ns. */
  long atNs();

  /**
   * Values read at one instant.
   *
   * @param block which of the device's requests; 0 for lines
   * @param atNs middle of question and answer; of a line, its first byte
   * @param roundTripNs from question to answer; 0 for lines
   * @param lateNs how long after its turn the question went out; 0 for lines
   * @param tries how many questions it took, from 1
   * @param channels indices into the map's channels
   * @param values in the units of the channels; NaN for "no reading"
   * @param raw what was read, as text for people: words in hex, or the line
   */
  record Reading(
      int device,
      int block,
      long atNs,
      long roundTripNs,
      long lateNs,
      int tries,
      int[] channels,
      double[] values,
      String raw)
      implements DeviceEvent {}

  /**
   * A reading that could not be had.
   *
   * @param tries how many questions were asked
   * @param text what happened, without control characters
   */
  record Fault(int device, long atNs, FaultKind kind, int tries, String text)
      implements DeviceEvent {}

  /**
   * A question that was asked again at once; a reading or a fault follows.
   *
   * @param text what was wrong the first time, without control characters
   */
  record AskedAgain(int device, long atNs, String text) implements DeviceEvent {}

  /** A played file has come to its end; nothing more will come of the device. */
  record Ended(int device, long atNs) implements DeviceEvent {}
}
