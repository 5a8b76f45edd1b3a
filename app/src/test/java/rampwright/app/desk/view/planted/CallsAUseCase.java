package rampwright.app.desk.view.planted;

import rampwright.app.usecase.AnalyzeTraces;

record CallsAUseCase(AnalyzeTraces analyze) {}
