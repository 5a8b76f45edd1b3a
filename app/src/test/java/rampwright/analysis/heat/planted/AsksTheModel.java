package rampwright.analysis.heat.planted;

import rampwright.analysis.machine.MachineModel;

record AsksTheModel(MachineModel model) {}
