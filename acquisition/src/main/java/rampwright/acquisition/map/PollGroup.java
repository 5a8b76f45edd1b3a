package rampwright.acquisition.map;

/**
 * Channels that are read at a rate of their own.
 *
 * @param name empty for the device's own rate
 * @param hz readings a second wanted
 */
public record PollGroup(String name, double hz) {}
