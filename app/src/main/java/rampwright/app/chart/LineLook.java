package rampwright.app.chart;

import java.awt.BasicStroke;
import java.awt.Color;

/** Colour and stroke of a line. */
record LineLook(Color colour, BasicStroke stroke) {
  LineLook pale(double opacity) {
    return new LineLook(Ink.pale(colour, opacity), stroke);
  }
}
