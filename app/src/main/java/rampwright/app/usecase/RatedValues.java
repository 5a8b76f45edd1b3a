package rampwright.app.usecase;

import rampwright.app.asset.Asset;

/** What readings are held against while recording: the same values as the figures use. */
record RatedValues(double currentA, double speedRpm) {
  static RatedValues of(Asset asset) {
    Double currentA = asset.context().ratedCurrentA();
    return new RatedValues(
        currentA == null ? asset.motor().ratedCurrentA() : currentA, asset.motor().ratedSpeedRpm());
  }
}
