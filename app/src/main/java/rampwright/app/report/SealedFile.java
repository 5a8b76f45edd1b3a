package rampwright.app.report;

/**
 * One file a signature stands under.
 *
 * @param path from the asset folder on, parted by "/"; control characters and "%" as %XX
 * @param sha256 of its bytes, lower-case hexadecimal
 */
public record SealedFile(String path, String sha256) {}
