package rampwright.app.report;

import rampwright.app.result.HeatResult;

/**
 * A heat account with its answer in words.
 *
 * @param result the account
 * @param sentence when the next start is allowed, and by which rule
 */
public record HeatView(HeatResult result, String sentence) {}
