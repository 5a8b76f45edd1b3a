package rampwright.acquisition.file;

/**
 * A status (on/off) channel as its configuration line describes it.
 *
 * @param number the channel's own number; some files go on counting from the analog ones
 * @param id its name
 * @param phase phase as written; "" when not told
 * @param circuit circuit component being monitored
 * @param normal its state in service, 0 or 1
 */
public record ComtradeStatus(int number, String id, String phase, String circuit, int normal) {}
