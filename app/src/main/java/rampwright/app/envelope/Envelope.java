package rampwright.app.envelope;

import java.util.List;

/**
 * The target of a trial.
 *
 * @param limits on figures, in the order of the file
 * @param corridors on channels
 */
public record Envelope(List<Limit> limits, List<Corridor> corridors) {
  /** Nothing is asked. */
  public static final Envelope NONE = new Envelope(List.of(), List.of());

  public Envelope {
    limits = List.copyOf(limits);
    corridors = List.copyOf(corridors);
  }

  public boolean isEmpty() {
    return limits.isEmpty() && corridors.isEmpty();
  }
}
