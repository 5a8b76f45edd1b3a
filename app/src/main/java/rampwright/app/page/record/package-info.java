/**
 * The commissioning record as one page of HTML that needs nothing but itself, and the same for
 * paper. Words and geometry are made here; the template places them and its engine escapes every
 * text.
 */
@NullMarked
package rampwright.app.page.record;

import org.jspecify.annotations.NullMarked;
