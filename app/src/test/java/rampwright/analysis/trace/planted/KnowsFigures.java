package rampwright.analysis.trace.planted;

import rampwright.analysis.figure.TraceFigures;

record KnowsFigures(TraceFigures figures) {}
