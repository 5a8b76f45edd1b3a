package rampwright.acquisition.bench.planted;

import rampwright.analysis.figure.TraceFigures;

record KnowsFigures(TraceFigures figures) {}
