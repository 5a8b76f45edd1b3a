package rampwright.app.trend;

import java.time.Instant;
import java.util.List;

/**
 * Where to look first: a pattern of figures that moved together. Never a diagnosis.
 *
 * @param key of the pattern
 * @param look where to look first, in words
 * @param since when the figures began to move
 * @param evidence what speaks for it, a line each
 * @param against what speaks against it, a line each
 * @param missing figures that would tell more, by key
 */
public record Lead(
    String key,
    String look,
    Instant since,
    List<String> evidence,
    List<String> against,
    List<String> missing) {
  public Lead {
    evidence = List.copyOf(evidence);
    against = List.copyOf(against);
    missing = List.copyOf(missing);
  }
}
