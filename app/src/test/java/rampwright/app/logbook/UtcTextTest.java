package rampwright.app.logbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class UtcTextTest {
  /** From 1900 to 2999, leap days and ends of years among them. */
  @Test
  void whatIsWrittenIsReadAgain() {
    Random chance = new Random(3);
    for (int i = 0; i < 5000; i++) {
      Instant at =
          Instant.ofEpochMilli(-2_208_988_800_000L + (long) (chance.nextDouble() * 3.4e13));
      assertThat(UtcText.instant(UtcText.of(at)))
          .isEqualTo(at)
          .isEqualTo(Instant.parse(at.toString()));
    }
    assertThat(UtcText.instant("2024-02-29T23:59:59.999Z"))
        .isEqualTo(Instant.parse("2024-02-29T23:59:59.999Z"));
    assertThat(UtcText.instant("2024-05-06T12:00:00Z")).isEqualTo("2024-05-06T12:00:00Z");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2023-02-29T00:00:00.000Z",
        "2023-13-01T00:00:00.000Z",
        "2023-01-01T25:00:00.000Z",
        "2023-01-01T00:61:00.000Z",
        "2023-01-0xT00:00:00.000Z",
        "yesterday"
      })
  void whatIsNoTimeIsNotTakenForOne(String text) {
    assertThatThrownBy(() -> UtcText.instant(text)).isInstanceOf(DateTimeException.class);
  }
}
