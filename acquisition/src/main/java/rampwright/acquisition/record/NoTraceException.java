package rampwright.acquisition.record;

import java.io.IOException;

/** A trial had too few readings to make a trace; nothing is left of it. */
public final class NoTraceException extends IOException {
  private static final long serialVersionUID = 1L;

  NoTraceException(String message) {
    super(message);
  }
}
