package rampwright.app.chart;

import java.awt.Graphics2D;

/** Something drawn in a lane, clipped to its drawing area. */
@FunctionalInterface
interface Layer {
  void paint(Graphics2D g, Plane plane, Ink ink);
}
