/**
 * Reading TOML files that people write by hand, and writing them.
 *
 * <p>Here: a file's text to checked values, each problem with its file, line, key and remedy; all
 * problems of a file at once. Not here: what the keys of a certain file mean (asset). Called by
 * asset and whoever reads a TOML file; the only package that sees the TOML library.
 */
@NullMarked
package rampwright.app.toml;

import org.jspecify.annotations.NullMarked;
