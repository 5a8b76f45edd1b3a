package rampwright.exam.stress;

import java.util.List;

final class WaveCases {
  static final List<String> KINDS = List.of();

  WaveCases(long seed) {}

  StressCase draw(String kind, int number) {
    throw new IllegalStateException();
  }
}
