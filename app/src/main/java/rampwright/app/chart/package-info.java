/**
 * Charts of trials as PNG or SVG bytes.
 *
 * <p>Here: input records that say what a chart shows, the reduction of samples to pixels, layout
 * and drawing. Axes, ticks and grids are the chart library's; curves, marks and panels are layers
 * of our own on top of it (the module's {@code docs/charts.md} says why). Not here: computing
 * figures or verdicts, reading or writing files, windows. Needs no display.
 */
@NullMarked
package rampwright.app.chart;

import org.jspecify.annotations.NullMarked;
