/**
 * The store of starts for months: append-only, in a SQLite file or, shared, in PostgreSQL. Nothing
 * else in the program knows that there is a database.
 */
@NullMarked
package rampwright.app.logbook;

import org.jspecify.annotations.NullMarked;
