package rampwright.app.usecase.planted;

import rampwright.app.cli.Terminal;

record KnowsCommands(Terminal terminal) {}
