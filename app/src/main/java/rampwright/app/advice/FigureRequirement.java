package rampwright.app.advice;

import rampwright.analysis.machine.RunFigure;

/**
 * A limit on a figure, held against a simulated trial.
 *
 * @param limit the limit
 * @param figure the figure of the run it rests on
 */
record FigureRequirement(FigureLimit limit, RunFigure figure) implements Requirement {
  @Override
  public String show() {
    return limit.show();
  }

  @Override
  public boolean ofStop() {
    return figure.ofStop();
  }

  @Override
  public String label() {
    return Wording.label(limit.key());
  }

  @Override
  public String told(Rehearsal run) {
    double value = value(run);
    return Double.isNaN(value) ? "not to be had" : Wording.value(limit.key(), value);
  }

  @Override
  public String asked() {
    Double min = limit.min();
    Double max = limit.max();
    if (min != null && max != null) {
      return Wording.number(min) + " to " + Wording.value(limit.key(), max);
    }
    return max != null
        ? "at most " + Wording.value(limit.key(), max)
        : "at least " + Wording.value(limit.key(), min == null ? 0 : min);
  }

  @Override
  public double needed(double value) {
    Double min = limit.min();
    Double max = limit.max();
    if (max != null && (min == null || !(value < min))) {
      return max;
    }
    return min == null ? Double.NaN : min;
  }

  @Override
  public double value(Rehearsal run) {
    return limit.factor() * run.of(figure);
  }

  @Override
  public double margin(Rehearsal run) {
    return limit.margin(value(run));
  }

  @Override
  public double chance(Rehearsal run, double caution) {
    double value = run.of(figure);
    if (Double.isNaN(value)) {
      return Normal.LEAST;
    }
    double sigma = Math.max(1e-9, caution * limit.factor() * run.sigma(figure));
    double scaled = limit.factor() * value;
    double inside = 1;
    Double max = limit.max();
    Double min = limit.min();
    if (max != null) {
      inside = Normal.below((max - scaled) / sigma);
    }
    if (min != null) {
      inside = Math.min(inside, Normal.below((scaled - min) / sigma));
    }
    return inside;
  }
}
