package rampwright.app.planted;

import java.util.Random;

final class BreaksCodeRules {
  private BreaksCodeRules() {}

  static void breakThem() throws Exception {
    System.out.println(String.format("%.1f", new Random().nextDouble()));
    if (System.nanoTime() == 0) {
      System.exit(1);
    }
    throw new Exception("ABC".toLowerCase());
  }
}
