package rampwright.analysis.planted;

final class Changes {
  private int count;

  int next() {
    return count++;
  }
}
