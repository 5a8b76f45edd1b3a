package rampwright.app.logbook;

import java.util.OptionalDouble;

/** Limit of an asset's envelope on one figure, as last noted. */
public record AssetLimit(String asset, String figure, OptionalDouble min, OptionalDouble max) {}
