package rampwright.acquisition.device;

/** Why a reading could not be had. */
public enum FaultKind {
  /** No connection, no port. */
  UNREACHABLE("not reachable"),
  /** Nothing came within the time allowed. */
  NO_ANSWER("no answer"),
  /** The device refused with an exception code. */
  REFUSED("refused"),
  /** Another device, or an answer to another question. */
  WRONG_ANSWER("wrong answer"),
  /** Checksum wrong. */
  BAD_CHECK("checksum wrong"),
  /** Bytes that are no answer at all. */
  GARBAGE("garbage"),
  /** A connection or port that was there is gone. */
  LOST("connection lost");

  private final String text;

  FaultKind(String text) {
    this.text = text;
  }

  /** In words. */
  public String text() {
    return text;
  }
}
