package rampwright.app.heat;

import java.util.LinkedHashMap;
import java.util.Map;
import rampwright.analysis.heat.HeatPiece;

/** Words of {@code heat.toml}. */
final class HeatWords {
  static final Map<String, HeatPiece.State> STATES = states();

  private HeatWords() {}

  private static Map<String, HeatPiece.State> states() {
    Map<String, HeatPiece.State> words = new LinkedHashMap<>();
    for (HeatPiece.State state : HeatPiece.State.values()) {
      words.put(state.key(), state);
    }
    return words;
  }
}
