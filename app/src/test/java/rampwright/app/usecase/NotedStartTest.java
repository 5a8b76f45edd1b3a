package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import rampwright.analysis.heat.StartHeat;
import rampwright.app.heat.HeatBookFile;
import rampwright.app.result.HeatResult;

/** Starts nobody recorded. */
class NotedStartTest extends HeatFolder {
  @Test
  void aStartNobodyRecordedIsToldAndToldApart() throws Exception {
    trial("20260314T060000Z", 8);
    now = NINE;
    double before = rotor(keep().now(pump));
    Instant began = NINE.minusSeconds(300);
    HeatResult known =
        keep().noteStart(pump, new NotedStart("A. Fitter", began, 9.0, 3.5, began.plusSeconds(60)));
    assertThat(known.standing().starts()).hasSize(2);
    StartHeat told = known.standing().starts().get(1);
    assertThat(told.measured()).isFalse();
    assertThat(known.standing().starts().get(0).measured()).isTrue();
    assertThat(told.rotorAdded()).isCloseTo(9 * 3.5 * 3.5 * 1.0404 / (25 * 51.84), within(1e-9));
    assertThat(known.datedBy()).containsValue("noted by A. Fitter");
    assertThat(known.standing().running()).isFalse();
    assertThat(rotor(known)).isGreaterThan(before);
    // The start to come is reckoned as a measured one.
    assertThat(known.standing().expectedRotor())
        .isCloseTo(known.standing().starts().get(0).rotorAdded(), within(1e-9));
    // Nothing known: just now, the whole hot allowance, and it runs.
    HeatResult unknown =
        keep().noteStart(pump, new NotedStart("B. Fitter", null, null, null, null));
    StartHeat worst = unknown.standing().starts().get(2);
    assertThat(worst.rotorAdded()).isCloseTo(12.0 / 25, within(1e-9));
    assertThat(unknown.standing().running()).isTrue();
    assertThat(rotor(unknown)).isGreaterThan(rotor(known) + 40);
    assertThat(unknown.remarks())
        .anyMatch(line -> line.contains("told by B. Fitter, not measured: moment not known"));
    assertThat(HeatBookFile.read(pump).noted()).hasSize(2);
    assertThat(rotor(keep().now(pump))).isCloseTo(rotor(unknown), within(1e-6));
  }

  @Test
  void whatCannotBeToldOfAStartIsRefused() {
    Instant later = now.plusSeconds(60);
    List<NotedStart> wrong =
        List.of(
            new NotedStart(" ", NINE, null, null, null),
            new NotedStart("A", later, null, null, null),
            new NotedStart("A", NINE, -1.0, null, null),
            new NotedStart("A", NINE, Double.NaN, null, null),
            new NotedStart("A", NINE, 9.0, 90.0, null),
            new NotedStart("A", NINE, null, 3.5, null),
            new NotedStart("A", NINE, 9.0, null, NINE.minusSeconds(1)),
            new NotedStart("A", null, 9.0, null, NINE));
    for (NotedStart one : wrong) {
      assertThatThrownBy(() -> keep().noteStart(pump, one))
          .as(one.toString())
          .isInstanceOf(UsageProblem.class);
    }
    assertThat(pump.resolve("heat.toml")).doesNotExist();
  }
}
