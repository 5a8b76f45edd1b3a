package rampwright.acquisition.toml;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class NearestWordTest {
  private static final List<String> WORDS =
      List.of("peak_current_ratio", "peak_current_A", "start_time_s", "ramp_up_s");

  @Test
  void aSlipOfTheFingerFindsItsWord() {
    assertThat(NearestWord.of("peak_curent_ratio", WORDS)).contains("peak_current_ratio");
    assertThat(NearestWord.of("strat_time_s", WORDS)).contains("start_time_s");
  }

  @Test
  void aForgottenUnitFindsItsWord() {
    assertThat(NearestWord.of("start_time", WORDS)).contains("start_time_s");
    assertThat(NearestWord.of("Ramp_Up", WORDS)).contains("ramp_up_s");
  }

  @Test
  void somethingElseFindsNothing() {
    assertThat(NearestWord.of("colour", WORDS)).isEmpty();
    assertThat(NearestWord.of("x".repeat(10_000), WORDS)).isEmpty();
  }
}
