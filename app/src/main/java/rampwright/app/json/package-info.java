/**
 * Results as JSON, and the schema that fixes its keys.
 *
 * <p>Here: writing only; nothing is read back. Not here: where the text goes (usecase, cli).
 */
@NullMarked
package rampwright.app.json;

import org.jspecify.annotations.NullMarked;
