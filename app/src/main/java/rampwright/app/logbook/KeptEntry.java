package rampwright.app.logbook;

import java.time.Instant;
import java.util.OptionalLong;

/**
 * An entry as it is kept. Never changed: a correction is a new entry that names the old one.
 *
 * @param number of the entry
 * @param replaces number of the entry it corrects
 * @param loggedAt when it was entered
 * @param inForce whether no later entry corrects it
 * @param entry what it says, without its files
 */
public record KeptEntry(
    long number, OptionalLong replaces, Instant loggedAt, boolean inForce, LogEntry entry) {}
