package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Sentences in a panel are whole where there is room for them. */
class FigureRowTest {
  private static final String SENTENCE =
      "two from cold or one from hot, a further one no hotter than in rated running: now at 44 % of"
          + " that, the second from cold is free";

  private final Ink ink = new Ink(new ChartStyle(1200, 800, ChartStyle.Theme.LIGHT));

  private FigureRow row(Double value, String note, int lines) {
    return new FigureRow(
        new FigureLine("starts", value, "min", null, Judgement.NONE, note),
        20 * ink.unit,
        ink,
        lines);
  }

  @Test
  void aSentenceWithoutANumberIsBrokenBetweenWords() {
    FigureRow whole = row(null, SENTENCE, 9);
    assertThat(whole.isWhole()).isTrue();
    assertThat(whole.height()).isGreaterThan(row(null, "short", 9).height() + 2 * ink.unit);
    assertThat(row(null, SENTENCE, 1).isWhole()).isFalse();
    assertThat(row(null, SENTENCE, 1).height()).isEqualTo(row(null, "short", 1).height());
  }

  @Test
  void aSentenceGoesBelowItsNumberAndAWordBesideIt() {
    assertThat(row(10.2, SENTENCE, 9).isWhole()).isTrue();
    assertThat(row(10.2, SENTENCE, 0).isWhole()).isFalse();
    assertThat(row(10.2, "limit 12", 9).height()).isEqualTo(row(10.2, "", 0).height());
    assertThat(row(10.2, "limit 12", 0).isWhole()).isTrue();
  }

  @Test
  void aWordTooLongForALineIsCutAndNothingIsLost() {
    FigureRow row = row(null, "x".repeat(400) + " end", 3);
    assertThat(row.isWhole()).isFalse();
    assertThat(row.height()).isGreaterThan(0);
  }
}
