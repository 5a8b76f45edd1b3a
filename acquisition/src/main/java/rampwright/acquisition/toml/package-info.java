/**
 * Reading TOML files that people write by hand, and writing them.
 *
 * <p>Here: a file's text to checked values, each problem with its file, line, key and remedy; all
 * problems of a file at once. Not here: what the keys of a certain file mean (channel maps; the
 * app's assets and settings). Called by whoever reads a TOML file; the only package that sees the
 * TOML library.
 */
@NullMarked
package rampwright.acquisition.toml;

import org.jspecify.annotations.NullMarked;
