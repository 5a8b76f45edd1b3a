package rampwright.analysis.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.Pipe;
import rampwright.analysis.machine.PipeHead;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.WaterColumn;
import rampwright.analysis.machine.Wiring;

/** What the sheet lets be believed of a pump's water before any trial. */
class AssetPriorTest {
  private static final int DRAWS = 256;

  private static List<WaterColumn> believed(@Nullable PipeHead head) {
    AssetData data =
        new AssetData(
            SimulatedTrial.PLATE,
            LoadKind.QUADRATIC,
            null,
            null,
            null,
            400,
            0.016,
            Wiring.IN_LINE,
            new Pipe(640, 1100, 1.6, head),
            Supply.NONE);
    return AssetFit.fit(data, List.of()).models(DRAWS, 400, 0, new Random(1)).stream()
        .map(MachineModel::water)
        .map(Objects::requireNonNull)
        .toList();
  }

  private static DescriptiveStatistics of(
      List<WaterColumn> draws, java.util.function.ToDoubleFunction<WaterColumn> part) {
    return new DescriptiveStatistics(draws.stream().mapToDouble(part).toArray());
  }

  /**
   * The means are the sheet's within four standard errors of 256 draws; the spread of the share is
   * half of what it is without the heads, at most.
   */
  @Test
  void headsOnTheSheetSayWhereFlowBeginsAndHowLongItTakes() {
    List<WaterColumn> known = believed(new PipeHead(30, 50));
    DescriptiveStatistics share = of(known, WaterColumn::staticShare);
    assertThat(share.getMean()).isCloseTo(0.6, within(4 * 0.08 / 16));
    double inertiaS = 640 * 1.6 / 9.80665 / 50;
    assertThat(of(known, w -> Math.log(w.inertiaS())).getMean())
        .isCloseTo(Math.log(inertiaS), within(4 * 0.35 / 16));
    DescriptiveStatistics unknown = of(believed(null), WaterColumn::staticShare);
    assertThat(share.getStandardDeviation()).isLessThan(0.5 * unknown.getStandardDeviation());
  }
}
