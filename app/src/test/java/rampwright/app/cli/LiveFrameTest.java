package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringWriter;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.record.LiveView;
import rampwright.analysis.trace.ChannelName;

/** The live picture: what it shows, that it fits, that nothing steers the terminal. */
class LiveFrameTest {
  private static LiveView view(String device, String fault, @Nullable String trouble) {
    Map<ChannelName, Double> latest = new EnumMap<>(ChannelName.class);
    latest.put(ChannelName.I1, 212.4);
    latest.put(ChannelName.I2, Double.NaN);
    latest.put(ChannelName.I3, 9e5);
    latest.put(ChannelName.SPEED, 1482.0);
    latest.put(ChannelName.POWER, 90_500.0);
    latest.put(ChannelName.RUN, Double.NaN);
    return new LiveView(
        LiveView.Phase.RECORDING,
        12.34,
        latest,
        212.4,
        545,
        "",
        List.of(new LiveView.DeviceState(device, 19.98, 20, 3, fault)),
        trouble,
        "");
  }

  private static String plain(List<String> lines) {
    return String.join("\n", lines).replaceAll("\u001b\\[[07]m", "");
  }

  @Test
  void figuresBarsDevicesAndKeysAreThere() {
    List<String> lines = new LiveFrame("Pump", 160, 1482).lines(view("meter", "", null));
    String text = plain(lines);
    assertThat(lines.get(0)).startsWith("\u001b[7m RECORDING \u001b[0m");
    assertThat(text)
        .contains("Pump", "0:12.3", "peak 545 = 3.41 In", "212.4 A  1.33 In", "no reading")
        .contains("1482 rpm", "power 90 500 W", "meter  20.0 of 20.00 a second, 3 not had")
        .contains("on disk within 250 ms", "e Enter or Ctrl-C: end and keep");
    // the big 2 of 212
    assertThat(text).contains("\u2588\u2588\u2588\u2588", "   \u2588");
  }

  @Test
  void itFitsAndNothingInItSteersTheTerminal() {
    String hostile = "\u001b]0;own\u0007\u202e" + "x".repeat(200);
    List<String> lines =
        new LiveFrame("\u001b[2J" + "N".repeat(200), 160, 1482)
            .lines(view(hostile, hostile, hostile));
    for (String line : lines) {
      String shown = line.replaceAll("\u001b\\[[07]m", "");
      assertThat(shown.length()).isLessThanOrEqualTo(LiveFrame.WIDTH);
      assertThat(shown).doesNotContain("\u001b", "\u0007", "\u202e");
    }
    assertThat(lines).hasSizeLessThan(24);
    assertThat(plain(lines)).contains(" ! ", " ! DISK");
  }

  /** Whatever the size: no line is too long, values and keys are there. */
  @ParameterizedTest
  @CsvSource({"60, 40", "60, 20", "45, 16", "100, 12", "40, 8", "20, 3"})
  void itFitsIntoASmallTerminal(int columns, int rows) {
    List<String> lines =
        new LiveFrame("Brine pump at the far end of the works", 160, 1482)
            .lines(view("meter", "", null), new TerminalSize(columns, rows));
    assertThat(lines).hasSizeLessThanOrEqualTo(Math.max(2, rows));
    for (String line : lines) {
      assertThat(line.replaceAll("\u001b\\[[07]m", "")).hasSizeLessThanOrEqualTo(columns);
    }
    String text = plain(lines);
    assertThat(lines.get(lines.size() - 1)).contains("e Enter");
    if (columns >= 45 && rows >= 12) {
      assertThat(text).contains("212.4 A  1.33 In", "1482 rpm", "RECORDING", "0:12.3");
    }
  }

  @Test
  void theSizeIsReadAsTheSystemPrintsIt() {
    assertThat(TerminalSize.parse("24 80\n")).isEqualTo(new TerminalSize(80, 24));
    for (String odd : new String[] {"", "0 0", "24", "a b", "24 80 1", "-1 80", "99999 80"}) {
      assertThat(TerminalSize.parse(odd)).as(odd).isNull();
    }
  }

  /** A picture where there is a terminal, lines where there is none or it can show no picture. */
  @ParameterizedTest
  @CsvSource({"xterm, true", "dumb, false", "'', false"})
  void aTerminalWithoutSteeringGetsLines(String terminal, boolean picture) {
    StringWriter talk = new StringWriter();
    Screen screen = new Screen(new StringWriter(), talk, true);
    try (LiveScreen live =
        new LiveScreen(screen, new LiveFrame("Pump", 160, 1482), () -> null, terminal)) {
      live.show(view("meter", "", null));
      live.show(view("meter", "", null));
    }
    if (picture) {
      // Lines are not broken while it is shown, and broken again afterwards.
      assertThat(talk.toString())
          .contains("\u001b[?7l")
          .endsWith("\u001b[?7h\u001b[?25h\u001b[?1049l");
      assertThat(talk.toString()).doesNotContain("\n\u001b[J");
    } else {
      assertThat(talk.toString()).isEqualTo("recording 12.3 s, 212.4 A, 1482 rpm\n");
    }
  }

  @Test
  void withoutATerminalItIsOneLine() {
    assertThat(LiveFrame.plain(view("meter", "no answer within 300 ms", null), null))
        .isEqualTo("recording 12.3 s, 212.4 A, 1482 rpm; meter: no answer within 300 ms");
  }
}
