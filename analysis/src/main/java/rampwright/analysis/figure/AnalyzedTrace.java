package rampwright.analysis.figure;

import rampwright.analysis.signal.RmsTrack;

/**
 * The figures of a trace and the RMS track they were taken from, for charts and fits.
 *
 * @param figures what was found
 * @param track currents (A RMS), line-to-line voltages (V RMS), speed and the rest at the track's
 *     times
 */
public record AnalyzedTrace(TraceFigures figures, RmsTrack track) {}
