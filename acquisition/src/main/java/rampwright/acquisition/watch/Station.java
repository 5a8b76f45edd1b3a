package rampwright.acquisition.watch;

import rampwright.acquisition.record.RecordPlan;

/**
 * One asset that is watched.
 *
 * @param name what people call it
 * @param plan how each of its starts is recorded
 */
public record Station(String name, RecordPlan plan) {}
