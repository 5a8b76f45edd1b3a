package rampwright.app.trend;

/**
 * The starts since settings last changed or the machine was worked on: only these are compared.
 *
 * @param starts that count and carry the figure
 * @param earlier starts of the asset before it
 * @param before those of them that count and carry the figure
 */
record Epoch(FigureStarts starts, int earlier, FigureStarts before) {}
