package rampwright.app.asset;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;

/** The words a key may have, in order. */
final class Words {
  private Words() {}

  static <T> Map<String, T> of(T[] values, Function<T, String> key) {
    Map<String, T> words = new LinkedHashMap<>();
    for (T value : values) {
      words.put(key.apply(value), value);
    }
    return words;
  }
}
