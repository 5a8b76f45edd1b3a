/**
 * Numbers and words that screens and pages share: a value with the digits its uncertainty allows, a
 * limit, a margin, an instant by its name. Texts only; where they go is decided by others.
 */
@NullMarked
package rampwright.app.wording;

import org.jspecify.annotations.NullMarked;
