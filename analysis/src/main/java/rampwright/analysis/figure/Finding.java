package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;

/**
 * Something the trace shows besides its figures.
 *
 * @param code stable word, for example {@code late-breakaway}
 * @param fromS start of the stretch it was seen in, s on the trace's time base
 * @param toS end of that stretch
 * @param value the number that crossed the threshold, where there is one
 * @param text one sentence for a person: what was seen, the number, what it may mean
 */
public record Finding(String code, double fromS, double toS, @Nullable Double value, String text) {}
