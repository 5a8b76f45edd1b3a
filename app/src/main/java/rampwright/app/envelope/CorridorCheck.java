package rampwright.app.envelope;

import org.jspecify.annotations.Nullable;

/**
 * One channel held against its corridor.
 *
 * @param corridor what was asked
 * @param met whether the channel stayed within; null when that could not be told
 * @param marginPct worst margin, percent of the bound's largest magnitude; negative = outside; null
 *     when nothing could be compared
 * @param atS instant of the worst margin on the trace's time base
 * @param value the channel's value at that instant
 * @param bound the bound's value at that instant
 * @param why why it could not be assessed, or what was left out; null when there is nothing to say
 */
public record CorridorCheck(
    Corridor corridor,
    @Nullable Boolean met,
    @Nullable Double marginPct,
    @Nullable Double atS,
    @Nullable Double value,
    @Nullable Double bound,
    @Nullable String why) {}
