package rampwright.app.cli.planted;

import rampwright.app.desk.view.planted.KnowsCommands;

record KnowsTheDesk(KnowsCommands desk) {}
