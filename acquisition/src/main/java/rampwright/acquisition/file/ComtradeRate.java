package rampwright.acquisition.file;

/**
 * A stretch of one sampling rate.
 *
 * @param rateHz samples a second; 0 when only the stamps tell
 * @param lastSample number of its last sample, counted from 1 over the whole record
 */
public record ComtradeRate(double rateHz, long lastSample) {}
