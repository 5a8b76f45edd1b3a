package rampwright.acquisition.planted;

import rampwright.analysis.figure.TraceFigures;

record KnowsFigures(TraceFigures figures) {}
