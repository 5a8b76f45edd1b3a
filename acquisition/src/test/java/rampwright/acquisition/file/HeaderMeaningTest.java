package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnTable.Content;

/** Headers in the trade's many spellings. */
class HeaderMeaningTest {

  private static Column column(String header, String... others) {
    List<String> row = new java.util.ArrayList<>(List.of(header));
    row.addAll(List.of(others));
    HeaderCell head = HeaderCell.of(0, row, "");
    return new Column(head, HeaderMeaning.of(head.name()), Content.NUMBERS, true);
  }

  private static String channel(Column column) {
    ColumnGuess guess = ColumnGuess.of(column);
    if (ColumnGuess.isTime(column)) {
      return "time";
    }
    if (guess.channel() != null) {
      return guess.channel().key();
    }
    return guess.unlabelled() ? "current" : "none";
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "i1_A | i1 | A",
        "I1 | i1 | ''",
        "I_L2 [A] | i2 | A",
        "IL3 (kA) | i3 | kA",
        "Ia rms (A) | i1 | A",
        "I b [A] | i2 | A",
        "IR | i1 | ''",
        "Current L1 [A] | i1 | A",
        "Phase current 2 (A) | i2 | A",
        "Strom L1 [kA] | i1 | kA",
        "Strom in A | current | A",
        "Motorstrom L2 / A | i2 | A",
        "Leiterstrom 3`A | i3 | A",
        "Courant phase 1 (A) | i1 | A",
        "Intensité L2 [A] | i2 | A",
        "Corriente R (A) | i1 | A",
        "Intensidad fase 3 (A) | i3 | A",
        "Corrente L1 (A) | i1 | A",
        "Stroom L2 (A) | i2 | A",
        "Prąd L3 [A] | i3 | A",
        "Ström L1 (mA) | i1 | mA",
        "RMS Current A | current | A",
        "U L1-L2 [V] | v12 | V",
        "U12 [V] | v12 | V",
        "Uab (kV) | v12 | kV",
        "V_RS | v12 | ''",
        "Spannung L2-L3 [V] | v23 | V",
        "Tension L3-L1 (V) | v31 | V",
        "Tensión L1 (V) | v1 | V",
        "Tensione L2 (V) | v2 | V",
        "Spanning L3 (V) | v3 | V",
        "Napięcie L1-L2 [V] | v12 | V",
        "Spänning L1 (V) | v1 | V",
        "VL1N (V) | v1 | V",
        "Voltage L1-L3 (V) | v31 | V",
        "Line voltage (V) | v12 | V",
        "Voltage (V) | none | V",
        "speed_rpm | speed | rpm",
        "Speed (rpm) | speed | rpm",
        "Drehzahl [1/min] | speed | 1/min",
        "n [U/min] | speed | U/min",
        "n / min-1 | speed | min-1",
        "Vitesse (tr/min) | speed | tr/min",
        "Velocidad (rad/s) | speed | rad/s",
        "Velocità [giri/min] | speed | giri/min",
        "Toerental (omw/min) | speed | omw/min",
        "Prędkość obrotowa [obr/min] | speed | obr/min",
        "Varvtal (rpm) | speed | rpm",
        "omega | speed | ''",
        "actual_rpm | speed | rpm",
        "time_s | time | s",
        "t`s | time | s",
        "Time (ms) | time | ms",
        "Zeit [s] | time | s",
        "Temps (s) | time | s",
        "Tiempo (s) | time | s",
        "Tempo [s] | time | s",
        "Tijd (s) | time | s",
        "Czas [ms] | time | ms",
        "Tid (s) | time | s",
        "timestamp_ms | time | ms",
        "t in ms | time | ms",
        "Wirkleistung [kW] | power | kW",
        "Puissance active (kW) | power | kW",
        "P [W] | power | W",
        "p [bar] | pressure | bar",
        "Druck [bar] | pressure | bar",
        "Discharge pressure (psi) | pressure | psi",
        "Presión (kPa) | pressure | kPa",
        "Torque (N·m) | torque | N·m",
        "Drehmoment [Nm] | torque | Nm",
        "Couple (Nm) | torque | Nm",
        "T [Nm] | torque | Nm",
        "run | run | ''",
        "Betrieb | run | ''",
        "Marche | run | ''",
        "setpoint_rpm | none | rpm",
        "Sollwert Drehzahl [1/min] | none | 1/min",
        "Max current L1 (A) | none | A",
        "Neutral current (A) | none | A",
        "Rotor current [A] | none | A",
        "THD I1 (%) | none | %",
        "Reactive power (kvar) | none | kvar",
        "P1 (kW) | none | kW",
        "Mechanical Power (W) | none | W",
        "Ch 1 (A) | current | A",
        "CH 2 (V) | none | V",
        "Ch 00`V | none | V",
        "Oil temperature (°C) | none | °C",
        "Motor Run Time [h] | none | h",
        "Frequency (Hz) | none | Hz",
        "Motor 1 Current L2 [A] | i2 | A",
      })
  void headersAreUnderstood(String header, String channel, String unit) {
    Column column = column(header);
    assertThat(channel(column)).as(header).isEqualTo(channel);
    assertThat(column.head().unitText()).as("unit of " + header).isEqualTo(unit);
  }

  @Test
  void lastLetterIsAPhaseWhereThereIsAFamilyOfThem() {
    assertThat(channel(column("Current A", "Current B", "Current C"))).isEqualTo("i1");
    assertThat(channel(column("Current C", "Current A", "Current B"))).isEqualTo("i3");
    assertThat(channel(column("Strom V", "Strom U", "Strom W"))).isEqualTo("i2");
    assertThat(channel(column("Current A", "Voltage V"))).isEqualTo("current");
  }

  @Test
  void reversedLineVoltageIsKeptAndSaid() {
    ColumnGuess guess = ColumnGuess.of(column("U L2-L1 [V]"));
    assertThat(guess.channel()).isNotNull();
    assertThat(guess.remark()).contains("other way round").contains("scale = -1");
  }
}
