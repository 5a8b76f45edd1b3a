/**
 * Alerts: when one is raised, what clears it, and where it is told. The only place that sends
 * anything over a network of its own accord, and only to the address it was given.
 */
@NullMarked
package rampwright.app.alert;

import org.jspecify.annotations.NullMarked;
