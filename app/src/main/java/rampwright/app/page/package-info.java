/**
 * The fleet as one page of HTML that needs nothing but itself. Geometry and words are made here;
 * the template places them and its engine escapes every text. Nothing else knows the engine.
 */
@NullMarked
package rampwright.app.page;

import org.jspecify.annotations.NullMarked;
