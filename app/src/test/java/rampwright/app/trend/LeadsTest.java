package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class LeadsTest {
  private final List<TrendQuestion> questions = new ArrayList<>();

  private LeadsTest figure(String key, long seed, double step) {
    List<LoggedStart> made = new StartsOfYears(seed).scatter(0.015).season(0).make(120);
    List<LoggedStart> starts = new ArrayList<>();
    List<LoggedStart> times = new StartsOfYears(1).make(120);
    for (int i = 0; i < made.size(); i++) {
      double value = made.get(i).value() * (i >= 70 ? 1 + step : 1);
      // each at the times of the same starts; the supply has no part in it
      starts.add(new LoggedStart(times.get(i).at(), "a", value, Double.NaN, true));
    }
    questions.add(
        new TrendQuestion(key, starts, List.of(), OptionalDouble.empty(), OptionalDouble.empty()));
    return this;
  }

  private List<Lead> leads() {
    return Leads.of(questions, questions.stream().map(Trends::of).toList());
  }

  @Test
  void longerStartAndStopAtTheSameCurrentIsInertia() {
    figure("start_time_s", 51, 0.2).figure("stop_time_s", 52, 0.25);
    figure("run_current_A", 53, 0).figure("peak_current_ratio", 54, 0);
    Lead lead = leads().get(0);
    assertThat(lead.key()).isEqualTo("inertia");
    assertThat(lead.evidence()).anyMatch(line -> line.startsWith("stop_time_s +"));
    assertThat(lead.evidence()).anyMatch(line -> line.startsWith("run_current_A"));
    assertThat(lead.missing()).containsExactly("current_unbalance_pct");
    assertThat(lead.look()).doesNotContain("is broken");
  }

  @Test
  void aDeeperDipAtTheSameCurrentIsTheSupply() {
    figure("voltage_dip_pct", 55, 0.4).figure("peak_current_ratio", 56, 0);
    assertThat(leads()).extracting(Lead::key).containsExactly("supply");
  }

  @Test
  void aDeeperDipWithTheCurrentIsNotTheSupply() {
    figure("voltage_dip_pct", 57, 0.2).figure("peak_current_ratio", 58, 0.2);
    figure("start_time_s", 59, -0.1);
    assertThat(leads()).extracting(Lead::key).containsExactly("more current");
  }

  @Test
  void whatContradictsIsSaid() {
    figure("start_time_s", 60, 0.2).figure("stop_time_s", 61, 0.2);
    figure("run_current_A", 62, 0.18);
    Lead lead = leads().stream().filter(l -> l.key().equals("inertia")).findFirst().orElse(null);
    if (lead != null) {
      assertThat(lead.against()).anyMatch(line -> line.startsWith("run_current_A"));
    }
    assertThat(leads().get(0).key()).isEqualTo("load torque");
  }

  @Test
  void steadyFiguresLeadNowhere() {
    figure("start_time_s", 63, 0).figure("run_current_A", 64, 0);
    assertThat(leads()).isEmpty();
  }

  @Test
  void aFigureAloneThatFitsNoPatternLeadsNowhere() {
    figure("thd_pct", 65, 0.3);
    assertThat(leads()).isEmpty();
  }
}
