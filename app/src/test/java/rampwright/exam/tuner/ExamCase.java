package rampwright.exam.tuner;

import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;

/**
 * One question of the exam.
 *
 * @param first bad first settings
 * @param best settings that meet the limits on most days (or come nearest)
 * @param shareMet days, of 40, on which {@code best} meets them
 * @param possible false: no settings meet them; {@code shortfall} is how far the best search stays
 *     outside, as a share of the limit, on the most favourable day tried
 */
public record ExamCase(
    PlantAsset asset,
    Limits limits,
    PlantSettings first,
    PlantSettings best,
    double shareMet,
    boolean possible,
    double shortfall,
    String madeImpossibleBy) {}
