package rampwright.acquisition.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapFiles;

/** What lines of instruments say. */
class LineReaderTest {
  private static LineReader reader(String form, String channels) throws Exception {
    ChannelMap map =
        MapFiles.parse(
            "m",
            "[device]\nname = \"t\"\nlink = \"lines\"\nserial_port = \"/dev/x\"\npoll_hz = 5\n"
                + form
                + "\n"
                + channels);
    return new LineReader(map, (Link.Lines) map.link());
  }

  private static final String TWO_FIELDS =
      "[[channel]]\nname = \"i1\"\nfield = 2\nunit = \"A\"\nno_reading = -1\n"
          + "[[channel]]\nname = \"speed\"\nfield = 4\nscale = 10\noffset = 1\nunit = \"rpm\"\n";

  @Test
  void fieldsAreTakenByTheirNumber() throws Exception {
    LineReader reader = reader("separator = \";\"", TWO_FIELDS);
    assertThat(reader.values("x;12.5;;148.2;end")).containsExactly(12.5, 1483);
    assertThat(reader.values("x; -1 ;;148")[0]).isNaN();
  }

  @Test
  void decimalCommasAreReadWhereTheMapSaysSo() throws Exception {
    LineReader reader = reader("separator = \";\"\ndecimal = \",\"", TWO_FIELDS);
    assertThat(reader.values("x;12,5;;1,5")).containsExactly(12.5, 16);
  }

  @Test
  void aPatternTakesTheLineApart() throws Exception {
    LineReader reader =
        reader(
            "pattern = '(?<i1>[0-9.]+)A (?<speed>[0-9.]+)rpm'",
            "[[channel]]\nname = \"i1\"\nunit = \"A\"\n[[channel]]\nname = \"speed\"\n"
                + "unit = \"rpm\"\n");
    assertThat(reader.values("> 12.5A 1482rpm <")).containsExactly(12.5, 1482);
    assertThatThrownBy(() -> reader.values("12.5A\u001b[31m"))
        .isInstanceOf(DeviceFault.class)
        .hasMessage("the pattern does not fit \"12.5A?[31m\"");
  }

  @Test
  void aPatternThatRunsWildIsStopped() throws Exception {
    LineReader reader =
        reader("pattern = '(?<i1>.*.*.*.*.*x)'", "[[channel]]\nname = \"i1\"\nunit = \"A\"\n");
    assertThatThrownBy(() -> reader.values("a".repeat(60) + "!"))
        .isInstanceOf(DeviceFault.class)
        .hasMessageContaining("runs wild");
  }

  @Test
  void whatIsNoNumberIsAFaultAndNothingElse() throws Exception {
    LineReader reader = reader("separator = \";\"", TWO_FIELDS);
    for (String bad :
        new String[] {"x;NaN;;1", "x;0x10;;1", "x;1f;;1", "x;1e999999999;;2e", "x", "x;;;1"}) {
      assertThatThrownBy(() -> reader.values(bad)).as(bad).isInstanceOf(DeviceFault.class);
    }
    Random random = new Random(1);
    for (int i = 0; i < 5000; i++) {
      StringBuilder line = new StringBuilder();
      for (int k = random.nextInt(30); k > 0; k--) {
        line.append((char) random.nextInt(300));
      }
      try {
        assertThat(reader.values(line.toString())).hasSize(2);
      } catch (DeviceFault fault) {
        assertThat(fault.text()).isNotEmpty();
      }
    }
  }
}
