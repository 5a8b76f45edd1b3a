package rampwright.acquisition.toml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TomlFileTest {
  private static final NumberKey RATIO =
      new NumberKey("ratio", "", 0.3, 1, "a ratio", "percent belong divided by 100");

  @TempDir private Path folder;

  @Test
  void everyProblemOfAFileIsReportedInTheOrderOfItsLines() throws Exception {
    TomlFile file =
        TomlFile.parse(
            "f.toml", "ratio = 1482\nname = 3\nkind = \"sift\"\nratoi = 1\nflag = \"x\"\n");
    file.root().flag("flag");
    file.root().word("kind", Map.of("soft", 1, "coast", 2));
    file.root().text("name");
    file.root().number(RATIO);
    file.root().requiredText("id", "a name");
    file.root().finish();
    TomlProblemsException e = catchThrowableOfType(TomlProblemsException.class, file::finish);
    assertThat(e.problems()).extracting(Problem::line).containsExactly(1, 1, 2, 3, 4, 5);
    assertThat(e.getMessage())
        .contains("f.toml line 1: ratio = 1482 is outside 0.3 to 1; it is a ratio; percent")
        .contains("f.toml line 1: id is missing; it is a name; add it")
        .contains("f.toml line 2: name = 3 is not a text")
        .contains("did you mean soft?")
        .contains("line 4: ratoi is not known here; did you mean ratio?")
        .contains("line 5: flag = \"x\" is neither true nor false");
  }

  @Test
  void syntaxErrorsComeWithLineAndColumn() {
    assertThatThrownBy(() -> TomlFile.parse("f.toml", "b = 1\nb = 2\n c = = 3\n"))
        .isInstanceOf(TomlProblemsException.class)
        .hasMessageContaining("f.toml line 2: column 1: not TOML: b previously defined")
        .hasMessageContaining("f.toml line 3: column 6: not TOML: Unexpected '='");
  }

  @Test
  void aByteOrderMarkIsPassedOver() throws Exception {
    assertThat(TomlFile.parse("f", "\uFEFFratio = 0.5\n").root().number(RATIO)).isEqualTo(0.5);
  }

  @Test
  void wholeNumbersServeAsNumbersAndNotANumberDoesNot() throws Exception {
    assertThat(TomlFile.parse("f", "ratio = 1\n").root().number(RATIO)).isEqualTo(1.0);
    TomlFile file = TomlFile.parse("f", "ratio = nan\n");
    file.root().number(RATIO);
    assertThatThrownBy(file::finish).hasMessageContaining("is not a number");
  }

  @Test
  void aTextInPlaceOfANumberSaysToDropTheQuotes() throws Exception {
    TomlFile file = TomlFile.parse("f", "ratio = \"0.87\"\n");
    file.root().number(RATIO);
    assertThatThrownBy(file::finish)
        .hasMessageContaining("ratio = \"0.87\" is not a number; write it without quotes");
  }

  @Test
  void anInstantWithoutZoneIsRefused() throws Exception {
    TomlFile file = TomlFile.parse("f", "at = 2026-03-14T09:12:05\n");
    file.root().instant("at");
    assertThatThrownBy(file::finish).hasMessageContaining("zone");
  }

  @Test
  void aListOfPairsNamesTheEntryThatIsNone() throws Exception {
    TomlFile file = TomlFile.parse("f", "upper = [[0, 1],\n [1, 2.5],\n [3],\n 4]\n");
    List<double[]> pairs = file.root().pairs("upper");
    assertThat(pairs).hasSize(2);
    assertThat(pairs.get(1)).containsExactly(1, 2.5);
    assertThatThrownBy(file::finish)
        .hasMessageContaining("f line 1: upper entry 3 is not a pair")
        .hasMessageContaining("upper entry 4 is not a pair");
  }

  @Test
  void deepNestingIsRefusedBeforeItIsParsed() {
    String deep = "x = 1\na = " + "[".repeat(100_000) + "]".repeat(100_000);
    assertThatThrownBy(() -> TomlFile.parse("f", deep))
        .isInstanceOf(TomlProblemsException.class)
        .hasMessageContaining("f line 2: brackets nest deeper than 32");
  }

  @Test
  void bracketsInStringsAndCommentsDoNotNest() throws Exception {
    String brackets = "[".repeat(100);
    TomlFile file =
        TomlFile.parse(
            "f",
            "# "
                + brackets
                + "\na = \""
                + brackets
                + "\\\"\"\nb = '''\n"
                + brackets
                + "''' # "
                + brackets
                + "\n");
    assertThat(file.root().text("a")).startsWith(brackets);
    assertThat(file.root().text("b")).isEqualTo(brackets);
  }

  @Test
  void closersInCommentsDoNotHideTheDepth() {
    String deep = "a = " + "[ # ]]]]\n".repeat(5000) + "]".repeat(5000);
    assertThatThrownBy(() -> TomlFile.parse("f", deep))
        .hasMessageContaining("brackets nest deeper than 32");
  }

  @Test
  void manyDottedPartsDoNotBreakTheReader() {
    String dotted = "a" + ".a".repeat(20_000) + " = 1\n";
    assertThatThrownBy(
            () -> {
              TomlFile file = TomlFile.parse("f", dotted);
              file.root().finish();
              file.finish();
            })
        .isInstanceOf(TomlProblemsException.class);
  }

  @Test
  void aHugeFileIsRefusedUnparsed() throws IOException {
    Path huge = folder.resolve("huge.toml");
    Files.write(huge, new byte[(1 << 20) + 1]);
    assertThatThrownBy(() -> TomlFile.read(huge))
        .isInstanceOf(TomlProblemsException.class)
        .hasMessageContaining("larger than 1 MiB");
  }

  @Test
  void bytesThatAreNotUtf8AreNamedWithTheirLine() throws IOException {
    Path latin = folder.resolve("latin.toml");
    Files.write(latin, "a = 1\nb = \"Kühlung\"\n".getBytes(StandardCharsets.ISO_8859_1));
    assertThatThrownBy(() -> TomlFile.read(latin))
        .isInstanceOf(TomlProblemsException.class)
        .hasMessageContaining("line 2: byte 0xfc is not UTF-8");
  }

  @ParameterizedTest
  @ValueSource(strings = {"a = 1\n\u0000", "\u001b[31m", "a = \"\u0007\""})
  void controlCharactersAreRefused(String text) {
    assertThatThrownBy(() -> TomlFile.parse("f", text))
        .isInstanceOf(TomlProblemsException.class)
        .hasMessageContaining("control character");
  }

  @Test
  void randomBytesEndInAProblemNeverInACrash() throws IOException {
    Random random = new Random(20260314);
    for (int i = 0; i < 200; i++) {
      byte[] bytes = new byte[random.nextInt(300)];
      random.nextBytes(bytes);
      Path file = folder.resolve("random.toml");
      Files.write(file, bytes);
      try {
        TomlFile.read(file).root().finish();
      } catch (TomlProblemsException e) {
        assertThat(e.problems()).as("round %d", i).isNotEmpty();
      }
    }
  }

  @Test
  void anyMixOfTomlTokensEndsInAProblemOrAFile() {
    String[] tokens = {
      "a",
      "=",
      "[",
      "]",
      "{",
      "}",
      "\"",
      "'",
      "\n",
      "1",
      ".",
      ",",
      "#",
      "2026-01-01",
      "inf",
      "'''",
      "_"
    };
    Random random = new Random(7);
    for (int i = 0; i < 400; i++) {
      StringBuilder text = new StringBuilder();
      int length = random.nextInt(40);
      for (int k = 0; k < length; k++) {
        text.append(tokens[random.nextInt(tokens.length)]);
      }
      try {
        TomlFile.parse("f", text.toString()).root().finish();
      } catch (TomlProblemsException e) {
        assertThat(e.problems()).as("seed 7, round %d: %s", i, text).isNotEmpty();
      }
    }
  }

  @Test
  void writtenTextReadsBackTheSame() throws Exception {
    TomlText text = new TomlText();
    text.section("s")
        .put("ratio", 0.87)
        .put("name", "quote \" slash \\ line \n tab \t bell \u0007 Ω")
        .put("left_out", (String) null)
        .put("range", Map.of("min", 1.0));
    TomlSection section = TomlFile.parse("f", text.toString()).root().section("s");
    assertThat(section).isNotNull();
    assertThat(section.number(RATIO)).isEqualTo(0.87);
    assertThat(section.text("name")).isEqualTo("quote \" slash \\ line \n tab \t bell \u0007 Ω");
    assertThat(section.has("left_out")).isFalse();
  }
}
