package rampwright.app.desk.view.planted;

import rampwright.app.cli.Terminal;

/** Public so that the class planted against the opposite rule can know it. */
public record KnowsCommands(Terminal terminal) {}
