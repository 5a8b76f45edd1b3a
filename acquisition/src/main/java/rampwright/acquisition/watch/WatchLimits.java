package rampwright.acquisition.watch;

/**
 * Room on the disk.
 *
 * @param warnBytes below so much free it is said
 * @param leastBytes below so much free the oldest trials of the watch make room
 * @param keepNewest so many of an asset's newest trials are never removed
 */
public record WatchLimits(long warnBytes, long leastBytes, int keepNewest) {}
