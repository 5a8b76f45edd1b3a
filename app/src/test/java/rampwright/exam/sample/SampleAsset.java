package rampwright.exam.sample;

import java.util.List;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantAsset;

/**
 * One asset of the samples.
 *
 * @param folder its name
 * @param plant its truth, sheet and meter
 * @param file the text of its asset file
 * @param limits the limits in that file, for the verdict in the truth files
 */
public record SampleAsset(
    String folder, PlantAsset plant, String file, Limits limits, List<SampleTrial> trials) {}
