package rampwright.app.result;

/**
 * A trial that could not be read.
 *
 * @param file what was to be read, as the person gave it
 * @param error what is wrong, where, and what to do
 */
public record FailedTrial(String file, String error) implements Entry {}
