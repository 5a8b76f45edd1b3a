package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rampwright.app.chart.Corridor.Corner;

/** Curves and limits as they reach the paper: alignment, gaps, differences, ends. */
class CurveDrawingTest {
  @Test
  void trialsStayAlignedWhenTheyAreReducedToColumns() {
    // One trial with few samples, drawn as it is; one with many, reduced. Both step at inception.
    Curve few = step(40, 2.0);
    Curve many = step(40_000, 7.0);
    Plane plane =
        new Plane(
            0, 0, 600, 200, new Span(-1, 5), AxisRange.of(0, 100, "A", AxisRange.Fit.FROM_ZERO), 1);
    assertThat(firstHigh(Polyline.of(many, plane, 1), plane))
        .isCloseTo(
            firstHigh(Polyline.of(few, plane, 1), plane), org.assertj.core.data.Offset.offset(8.0));
  }

  @Test
  void aCurveCanEndWhereItIsNoLongerJudged() {
    Curve curve = step(7, 2.0);
    Curve cut = java.util.Objects.requireNonNull(curve.until(3));
    assertThat(cut.at(3)).isEqualTo(curve.at(3));
    assertThat(cut.at(4)).isNaN();
    assertThat(curve.until(-2)).as("nothing is left").isNull();
    Curve whole = java.util.Objects.requireNonNull(curve.until(Double.NaN));
    assertThat(whole.at(5)).isEqualTo(curve.at(5));
  }

  private static Curve step(int size, double inceptionS) {
    double[] timeS = new double[size];
    double[] values = new double[size];
    for (int i = 0; i < size; i++) {
      timeS[i] = inceptionS - 1 + 6.0 * i / (size - 1);
      values[i] = timeS[i] < inceptionS ? 0 : 100;
    }
    return java.util.Objects.requireNonNull(Curve.of(timeS, values, inceptionS));
  }

  private static double firstHigh(Polyline line, Plane plane) {
    double[] point = new double[6];
    for (var it = line.line().getPathIterator(null); !it.isDone(); it.next()) {
      it.currentSegment(point);
      if (point[1] <= plane.y(99)) {
        return point[0];
      }
    }
    throw new AssertionError("the step is not drawn");
  }

  @Test
  void gapsAreNotDrawnAsMeasured() {
    double[] timeS = {0, 1, 2, 3, 20, 21, 22, 23};
    double[] values = {1, 1, Double.NaN, 1, 1, 1, 1, 1};
    Plane plane =
        new Plane(
            0, 0, 600, 200, new Span(0, 23), AxisRange.of(0, 2, "A", AxisRange.Fit.FROM_ZERO), 1);
    Polyline line =
        Polyline.of(java.util.Objects.requireNonNull(Curve.of(timeS, values, 0)), plane, 1);
    int pieces = 0;
    for (var it = line.line().getPathIterator(null); !it.isDone(); it.next()) {
      pieces += it.currentSegment(new double[6]) == java.awt.geom.PathIterator.SEG_MOVETO ? 1 : 0;
    }
    assertThat(pieces).as("0 to 1 and 20 to 23; 3 is a dot").isEqualTo(2);
    assertThat(line.dots().getBounds2D().getCenterX()).isEqualTo(plane.x(3));
    assertThat(line.bridges().getBounds2D().getMinX()).isEqualTo(plane.x(3));
    assertThat(line.bridges().getBounds2D().getMaxX()).isEqualTo(plane.x(20));
  }

  @Test
  void differenceHasTheInstantsOfBothAndNoGapsOfItsOwn() {
    double[] aS = {0, 1, 2, 3, 4};
    double[] bS = {0.01, 1.01, 2.01, 3.01, 4.01};
    Curve a = java.util.Objects.requireNonNull(Curve.of(aS, new double[] {0, 0, 9, 0, 0}, 0));
    Curve b = java.util.Objects.requireNonNull(Curve.of(bS, new double[] {2, 2, 2, 2, 2}, 0));
    Span window = new Span(0, 4.5);
    Curve difference = java.util.Objects.requireNonNull(a.differenceTo(b, window));
    assertThat(difference.time().size()).isEqualTo(10);
    assertThat(difference.at(2)).isEqualTo(2 - 9);
    assertThat(difference.at(3.01)).isEqualTo(2);
    assertThat(difference.at(4.01)).as("the first has ended").isNaN();
    Plane plane =
        new Plane(0, 0, 600, 200, window, AxisRange.of(-9, 9, "A", AxisRange.Fit.FROM_ZERO), 1);
    assertThat(Polyline.of(difference, plane, 1).bridges().getBounds2D().isEmpty()).isTrue();
  }

  @Test
  void aCorridorOfTheStartEndsWhereTheStopBegins() {
    Corridor asked =
        new Corridor(
            Corridor.Channel.CURRENT_RATIO,
            Corridor.Part.START,
            List.of(new Corner(0, 3), new Corner(8, 3), new Corner(12, 1), new Corner(20, 1)),
            List.of());
    assertThat(asked.until(10).upper())
        .containsExactly(new Corner(0, 3), new Corner(8, 3), new Corner(10, 2));
    assertThat(asked.until(8).upper()).containsExactly(new Corner(0, 3), new Corner(8, 3));
    assertThat(asked.until(30)).isEqualTo(asked);
    assertThat(asked.until(-1).upper()).isEmpty();
  }
}
