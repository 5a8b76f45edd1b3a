package rampwright.acquisition.map;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.trace.ChannelName;

/** Channel maps: what is understood, and how what is wrong is told. */
class MapFilesTest {
  private static final Path SHIPPED = Path.of("maps");

  private static final String TCP =
      """
      [device]
      name = "meter"
      link = "tcp"
      host = "127.0.0.1"
      poll_hz = 20
      [[channel]]
      name = "i1"
      function = 3
      address = 100
      type = "f32"
      unit = "A"
      """;

  private static String problemsOf(String text) {
    try {
      MapFiles.parse("m.map.toml", text);
      return "";
    } catch (TomlProblemsException e) {
      return String.valueOf(e.getMessage());
    }
  }

  @Test
  void everyShippedMapIsRead() throws Exception {
    List<Path> maps;
    try (Stream<Path> files = Files.list(SHIPPED)) {
      maps = files.filter(f -> f.toString().endsWith(".map.toml")).sorted().toList();
    }
    assertThat(maps).hasSizeGreaterThanOrEqualTo(3);
    for (Path map : maps) {
      ChannelMap read = MapFiles.read(map);
      assertThat(read.channels()).as(map.toString()).isNotEmpty();
    }
  }

  @Test
  void aShippedMapMeansWhatItSays() throws Exception {
    ChannelMap map = MapFiles.read(SHIPPED.resolve("panel-meter.map.toml"));
    assertThat(map.link()).isEqualTo(new Link.Tcp("127.0.0.1", 1502));
    assertThat(map.hz()).isEqualTo(20);
    assertThat(map.hz("slow")).isEqualTo(2);
    List<ReadBlock> blocks = ReadBlock.of(map);
    assertThat(blocks).hasSize(2);
    assertThat(blocks.get(0).count()).isEqualTo(12);
    MapChannel power = map.channels().get(6);
    assertThat(power.name()).isEqualTo(ChannelName.POWER);
    // 905 x 0.1 kW
    assertThat(power.value(905)).isEqualTo(90_500.0);
    assertThat(blocks.get(1).value(map, 6, new int[] {905, 0})).isEqualTo(90_500.0);
    assertThat(blocks.get(1).value(map, 6, new int[] {0, 0x8000})).isNaN();
  }

  @Test
  void linesAreTakenApartByPatternOrSeparator() throws Exception {
    ChannelMap map = MapFiles.read(SHIPPED.resolve("tachometer.map.toml"));
    Link.Lines lines = (Link.Lines) map.link();
    assertThat(lines.form().terminator()).isEqualTo("\r\n");
    assertThat(lines.serial().bitsPerByte()).isEqualTo(10);
    assertThat(map.channels().get(0).source()).isInstanceOf(ChannelSource.Group.class);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "name = \"i1\" | name = \"i9\" | line 7: [channel] name = \"i9\" is not known",
        "function = 3 | function = 6 | line 8: [channel] function = 6 is outside 1 to 4; it is 1"
            + " coils, 2 discrete inputs, 3 holding registers, 4 input registers; other functions"
            + " write or configure",
        "address = 100 | address = 70000 | line 9: [channel] address = 70000 is outside 0 to 65535",
        "address = 100 | address = 65535 | line 9: [channel] address = 65535 with 2 registers runs"
            + " over the last one",
        "type = \"f32\" | type = \"float\" | line 10: [channel] type = \"float\" is not known",
        "unit = \"A\" | unit = \"V\" | line 11: [channel] unit = \"V\" is no unit of i1",
        "unit = \"A\" | unti = \"A\" | line 11: [channel] unti is not known here; did you mean"
            + " unit?",
        "poll_hz = 20 | poll_hz = 0 | line 5: [device] poll_hz = 0 is outside",
        "link = \"tcp\" | link = \"udp\" | line 3: [device] link = \"udp\" is not known",
        "host = \"127.0.0.1\" | # | line 1: [device] host is missing",
        "type = \"f32\" | no_reading = 70000 | type is missing",
        "poll_hz = 20 | poll = 3 | poll_hz is missing"
      })
  void whatIsWrongIsNamedWithItsLine(String good, String bad, String expected) {
    assertThat(problemsOf(TCP)).isEmpty();
    assertThat(problemsOf(TCP.replace(good, bad))).contains("m.map.toml ", expected);
  }

  @Test
  void aChannelTwiceIsRefused() {
    assertThat(problemsOf(TCP + TCP.substring(TCP.indexOf("[[channel]]"))))
        .contains("name = \"i1\" is there already on line");
  }

  @Test
  void aReadingThatDoesNotFitIsRefused() {
    String text = TCP.replace("type = \"f32\"", "type = \"u16\"\nno_reading = 65536");
    assertThat(problemsOf(text)).contains("line 11", "does not fit into u16");
  }

  @Test
  void noReadingMayBeWrittenAsTheBitsOrTheNumber() throws Exception {
    for (String none : List.of("-1", "0xFFFF")) {
      String text = TCP.replace("type = \"f32\"", "type = \"u16\"\nno_reading = " + none);
      ChannelMap map = MapFiles.parse("m", text);
      ReadBlock block = ReadBlock.of(map).get(0);
      assertThat(block.value(map, 0, new int[] {0xffff})).isNaN();
      assertThat(block.value(map, 0, new int[] {0xfffe})).isEqualTo(65534);
    }
  }

  @Test
  void aPatternWithoutTheChannelsGroupIsRefused() {
    String text =
        """
        [device]
        name = "t"
        link = "lines"
        serial_port = "/dev/ttyS0"
        poll_hz = 5
        pattern = "(?<rate>[0-9]+)"
        [[channel]]
        name = "speed"
        unit = "rpm"
        """;
    assertThat(problemsOf(text)).contains("line 8", "no group (?<speed>...)");
    assertThat(problemsOf(text.replace("(?<rate>", "(?<rate"))).contains("no regular expression");
  }

  @Test
  void neighboursAreReadTogetherAndNoAnswerHoldsMoreThanTheProtocolAllows() throws Exception {
    StringBuilder text = new StringBuilder(TCP.substring(0, TCP.indexOf("[[channel]]")));
    String[] names = {"i1", "i2", "i3", "v12", "v23", "v31", "speed"};
    String[] units = {"A", "A", "A", "V", "V", "V", "rpm"};
    int[] address = {0, 124, 125, 200, 203, 62, 60};
    for (int i = 0; i < names.length; i++) {
      text.append("[[channel]]\nname = \"" + names[i] + "\"\nfunction = 3\naddress = ");
      text.append(address[i]).append("\ntype = \"u16\"\nunit = \"" + units[i] + "\"\n");
    }
    assertThat(ranges(text.toString())).isEqualTo("0+1 60+1 62+1 124+2 200+1 203+1");
    String bridged = text.toString().replace("poll_hz = 20", "poll_hz = 20\nbridge = 2");
    assertThat(ranges(bridged)).isEqualTo("0+1 60+3 124+2 200+4");
    String wide = text.toString().replace("poll_hz = 20", "poll_hz = 20\nbridge = 100");
    // 0 to 124 are 125 registers; the next would be one too many
    assertThat(ranges(wide)).isEqualTo("0+125 125+79");
  }

  private static String ranges(String text) throws TomlProblemsException {
    return ReadBlock.of(MapFiles.parse("m", text)).stream()
        .map(b -> b.address() + "+" + b.count())
        .collect(Collectors.joining(" "));
  }

  @Test
  void aNumberOfTwoRegistersIsNeverTornApart() throws Exception {
    Random random = new Random(11);
    String[] names = {"i1", "i2", "i3"};
    for (int round = 0; round < 300; round++) {
      StringBuilder text = new StringBuilder(TCP.substring(0, TCP.indexOf("[[channel]]")));
      text.append("bridge = 100\n");
      for (String name : names) {
        text.append("[[channel]]\nname = \"" + name + "\"\nfunction = 4\ntype = \"f64\"\nunit =");
        text.append("\"A\"\naddress = ").append(random.nextInt(260)).append('\n');
      }
      ChannelMap map = MapFiles.parse("m", text.toString());
      int channels = 0;
      for (ReadBlock block : ReadBlock.of(map)) {
        assertThat(block.count()).isBetween(1, ReadBlock.MOST_REGISTERS);
        for (int channel : block.channels()) {
          assertThat(block.wordsOf(map, channel, new int[block.count()])).hasSize(4);
          channels++;
        }
      }
      assertThat(channels).isEqualTo(3);
    }
  }

  @Test
  void noBrokenMapEscapesAsAnythingButProblems() {
    Random random = new Random(5);
    for (int i = 0; i < 3000; i++) {
      StringBuilder text = new StringBuilder(TCP);
      for (int k = random.nextInt(4); k >= 0; k--) {
        int at = random.nextInt(text.length());
        text.setCharAt(at, "\"[]=\n1x-. ".charAt(random.nextInt(10)));
      }
      try {
        MapFiles.parse("m", text.toString());
      } catch (TomlProblemsException e) {
        assertThat(e.problems()).isNotEmpty();
      }
    }
  }

  @Test
  void aMissingFileIsAnIoProblem() {
    assertThatThrownBy(() -> MapFiles.read(Path.of("nowhere.map.toml")))
        .isInstanceOf(java.nio.file.NoSuchFileException.class);
  }
}
