package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import rampwright.app.chart.ChartStyle.Theme;

/**
 * The palette against published measures.
 *
 * <p>Contrast: relative luminance and ratio of WCAG 2.2; 3 : 1 is the least for graphics (1.4.11),
 * 4.5 : 1 for text (1.4.3). Sight: matrices of Machado, Oliveira and Fernandes, "A
 * Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15 (2009),
 * severity 1.0, on linear RGB. Distance: CIE 1976 L*a*b*, D65.
 */
class InkTest {
  /**
   * Least distance in L*a*b* between two lines. About 2.3 can just be told apart side by side (Mahy
   * and others 1994, from memory); ten times that leaves room for thin lines and poor projectors.
   */
  private static final double LEAST_DISTANCE = 25;

  private static final double[][][] SIGHTS = {
    {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
    {
      {0.152286, 1.052583, -0.204868},
      {0.114503, 0.786281, 0.099216},
      {-0.003882, -0.048116, 1.051998}
    },
    {
      {0.367322, 0.860646, -0.227968},
      {0.280085, 0.672501, 0.047413},
      {-0.011820, 0.042940, 0.968881}
    },
    {
      {1.255528, -0.076749, -0.178779},
      {-0.078411, 0.930809, 0.147602},
      {0.004733, 0.691367, 0.303900}
    }
  };

  private static Ink ink(Theme theme) {
    return new Ink(new ChartStyle(1200, 800, theme));
  }

  private static double[] linear(Color colour) {
    double[] rgb = {colour.getRed() / 255.0, colour.getGreen() / 255.0, colour.getBlue() / 255.0};
    return Arrays.stream(rgb)
        .map(v -> v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4))
        .toArray();
  }

  private static double contrast(Color a, Color b) {
    double la = luminance(a);
    double lb = luminance(b);
    return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
  }

  private static double luminance(Color colour) {
    double[] rgb = linear(colour);
    return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
  }

  private static double[] lab(double[] rgb) {
    double[] c = Arrays.stream(rgb).map(v -> Math.max(0, Math.min(1, v))).toArray();
    double x = (0.4124564 * c[0] + 0.3575761 * c[1] + 0.1804375 * c[2]) / 0.95047;
    double y = 0.2126729 * c[0] + 0.7151522 * c[1] + 0.0721750 * c[2];
    double z = (0.0193339 * c[0] + 0.1191920 * c[1] + 0.9503041 * c[2]) / 1.08883;
    double[] f =
        Arrays.stream(new double[] {x, y, z})
            .map(t -> t > 0.008856 ? Math.cbrt(t) : 7.787 * t + 16.0 / 116)
            .toArray();
    return new double[] {116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])};
  }

  private static double[] seen(double[][] sight, double[] rgb) {
    double[] out = new double[3];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        out[i] += sight[i][j] * rgb[j];
      }
    }
    return out;
  }

  @ParameterizedTest
  @EnumSource(Theme.class)
  void linesStandOutFromTheGround(Theme theme) {
    Ink ink = ink(theme);
    for (Color line : ink.lineColours()) {
      assertThat(contrast(line, ink.paper)).as("%s", line).isGreaterThanOrEqualTo(3.0);
    }
  }

  @ParameterizedTest
  @EnumSource(Theme.class)
  void textIsReadableOnGroundAndPanel(Theme theme) {
    Ink ink = ink(theme);
    for (Color text : List.of(ink.text, ink.muted, ink.met, ink.missed)) {
      assertThat(contrast(text, ink.paper)).as("%s", text).isGreaterThanOrEqualTo(4.5);
      assertThat(contrast(text, ink.panel)).as("%s", text).isGreaterThanOrEqualTo(4.5);
    }
  }

  @ParameterizedTest
  @EnumSource(Theme.class)
  void linesDifferForNormalSightAndForEachDichromacy(Theme theme) {
    List<Color> lines = ink(theme).lineColours();
    for (double[][] sight : SIGHTS) {
      for (int a = 0; a < lines.size(); a++) {
        for (int b = 0; b < a; b++) {
          double[] la = lab(seen(sight, linear(lines.get(a))));
          double[] lb = lab(seen(sight, linear(lines.get(b))));
          double distance =
              Math.sqrt(
                  Math.pow(la[0] - lb[0], 2)
                      + Math.pow(la[1] - lb[1], 2)
                      + Math.pow(la[2] - lb[2], 2));
          assertThat(distance)
              .as("%s and %s", lines.get(a), lines.get(b))
              .isGreaterThanOrEqualTo(LEAST_DISTANCE);
        }
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Theme.class)
  void twentyFourLinesAreAllDifferentAndNeighboursDifferInDashesToo(Theme theme) {
    Ink ink = ink(theme);
    Set<List<Object>> looks = new HashSet<>();
    Set<String> withoutColour = new HashSet<>();
    for (int n = 0; n < 24; n++) {
      LineLook look = ink.line(n);
      float[] dashes = look.stroke().getDashArray();
      if (n < 8) {
        // As many as are drawn over each other.
        withoutColour.add(Arrays.toString(dashes));
      }
      looks.add(List.of(look.colour(), dashes == null ? "solid" : Arrays.toString(dashes)));
      assertThat(ink.line(n + 1).stroke().getDashArray()).isNotEqualTo(dashes);
    }
    assertThat(looks).hasSize(24);
    assertThat(withoutColour).hasSize(8);
  }
}
