package rampwright.app.envelope;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import rampwright.app.envelope.Polyline.Point;

class PolylineTest {
  private static final Polyline BOUND =
      new Polyline(List.of(new Point(0, 4), new Point(10, 4), new Point(10, 2), new Point(12, 1)));

  @Test
  void betweenPointsTheBoundIsStraight() {
    assertThat(BOUND.at(5, true)).isEqualTo(4);
    assertThat(BOUND.at(11, true)).isCloseTo(1.5, within(1e-12));
  }

  @Test
  void outsideItsTimesThereIsNoBound() {
    assertThat(BOUND.at(-0.1, true)).isNaN();
    assertThat(BOUND.at(12.1, true)).isNaN();
    assertThat(Polyline.NONE.at(0, true)).isNaN();
  }

  @Test
  void atAStepTheWiderValueHolds() {
    assertThat(BOUND.at(10, true)).isEqualTo(4);
    assertThat(BOUND.at(10, false)).isEqualTo(2);
  }

  @Test
  void onePointOrTimeGoingBackIsRefused() {
    assertThatThrownBy(() -> new Polyline(List.of(new Point(0, 1))))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Polyline(List.of(new Point(1, 1), new Point(0, 1))))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
