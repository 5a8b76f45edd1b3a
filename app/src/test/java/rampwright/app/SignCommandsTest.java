package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.fixture.Commissioned;
import rampwright.app.json.ResultSchemaValidator;

/** Signatures under a record: what they stood under, and whether that is still there. */
class SignCommandsTest {
  @TempDir private Path folder;
  private Path pump = Path.of("");

  @BeforeEach
  void layOut() throws IOException {
    pump = Commissioned.pump(folder);
  }

  private CommandRun.Answer sign(Object... more) {
    Object[] words = new Object[more.length + 4];
    words[0] = "report";
    words[1] = pump;
    words[2] = "--sign";
    words[3] = "A. Fitter";
    System.arraycopy(more, 0, words, 4, more.length);
    return CommandRun.run(words);
  }

  private JsonNode signature() {
    CommandRun.Answer answer = CommandRun.run("report", pump, "--json");
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    return answer.json().at("/signatures/0");
  }

  private Path file() {
    return pump.resolve("signatures.toml");
  }

  @Test
  void aSignatureStandsAsLongAsNothingChanges() throws IOException {
    Commissioned.tickAll(pump);
    CommandRun.Answer signed = sign("--role", "commissioning", "--note", "as agreed");
    assertThat(signed.exit()).as(signed.err()).isZero();
    assertThat(Files.readString(pump.resolve("record.html")))
        .contains("A. Fitter", "what was signed is what is there", "commissioning", "as agreed");
    assertThat(signature().path("stands").asBoolean()).isTrue();
    // What the program derives or keeps by itself is not under the signature.
    CommandRun.run("analyze", pump);
    CommandRun.run("heat", pump);
    CommandRun.run("report", pump, "--pdf");
    assertThat(signature().path("stands").asBoolean()).isTrue();

    Path settings = pump.resolve("trials").resolve(Commissioned.GOOD).resolve("settings.toml");
    String before = Files.readString(settings);
    Files.writeString(settings, before.replace("ramp_up_s = 8.0", "ramp_up_s = 8.5"));
    Commissioned.trial(pump, "20260314T100000Z", 480, "");
    Files.move(pump.resolve("before-energising.toml"), folder.resolve("list"));
    JsonNode after = signature();
    assertThat(after.path("stands").asBoolean()).isFalse();
    assertThat(after.path("changes").toString())
        .contains("trials/" + Commissioned.GOOD + "/settings.toml\",\"change\":\"changed\"")
        .contains("trials/20260314T100000Z/trace.csv\",\"change\":\"added\"")
        .contains("before-energising.toml\",\"change\":\"removed\"");
    CommandRun.Answer told = CommandRun.run("report", pump);
    assertThat(told.out()).contains("not what was signed any more");
    assertThat(Files.readString(pump.resolve("record.html")))
        .contains("before-energising.toml removed", "CHANGED");

    Files.writeString(settings, before);
    Files.move(folder.resolve("list"), pump.resolve("before-energising.toml"));
    for (String name : new String[] {"trace.csv", "settings.toml"}) {
      Files.delete(pump.resolve("trials/20260314T100000Z").resolve(name));
    }
    assertThat(signature().path("stands").asBoolean()).isTrue();
  }

  @Test
  void anOpenListIsRefusedUnlessSomebodySaysWhy() throws IOException {
    CommandRun.Answer refused = sign();
    assertThat(refused.exit()).isEqualTo(2);
    assertThat(refused.err()).contains("20 of 20 checks before energising are open", "--despite");
    assertThat(file()).doesNotExist();
    assertThat(pump.resolve("record.html")).doesNotExist();
    assertThat(sign("--despite", "list is on paper, folder 7").exit()).isZero();
    assertThat(signature().path("despite").asText()).isEqualTo("list is on paper, folder 7");
    assertThat(signature().path("against").asText()).contains("checks before energising are open");
    assertThat(Files.readString(pump.resolve("record.html")))
        .contains("list is on paper, folder 7", "although");
  }

  @Test
  void aMissedEnvelopeIsRefusedUnlessSomebodySaysWhy() throws IOException {
    Commissioned.tickAll(pump);
    Commissioned.trial(pump, "20260314T090000Z", 640, "");
    CommandRun.Answer refused = sign();
    assertThat(refused.exit()).isEqualTo(2);
    assertThat(refused.err()).contains("not accepted", "peak current");
    assertThat(sign("--despite", "limit raised by order 12").exit()).isEqualTo(3);
    assertThat(signature().path("state").asText()).isEqualTo("not accepted");
  }

  @Test
  void aReasonWithoutNeedAndANameThatIsNoneAreRefused() {
    Commissioned.tickAll(pump);
    assertThat(sign("--despite", "because").err()).contains("nothing stands against signing");
    assertThat(CommandRun.run("report", pump, "--sign", " ").err()).contains("--sign");
    assertThat(CommandRun.run("report", pump, "--sign", "a\u202eb").exit()).isEqualTo(2);
    assertThat(file()).doesNotExist();
  }

  @Test
  void signaturesAreAddedAndNothingBeforeThemIsTouched() throws IOException {
    Commissioned.tickAll(pump);
    assertThat(sign().exit()).isZero();
    Files.writeString(file(), Files.readString(file()) + "# seen by the plant, 3 May\n");
    String before = Files.readString(file());
    assertThat(CommandRun.run("report", pump, "--sign", "O. Wner", "--role", "owner").exit())
        .isZero();
    assertThat(Files.readString(file())).startsWith(before).contains("O. Wner");
    assertThat(CommandRun.run("report", pump, "--json").json().path("signatures")).hasSize(2);

    Files.writeString(file(), "[[signature]]\nname = \"half\n");
    CommandRun.Answer broken = sign("--despite", "the signatures are broken");
    assertThat(broken.exit()).isEqualTo(6);
    assertThat(broken.err()).contains("signatures.toml");
    assertThat(Files.readString(file())).isEqualTo("[[signature]]\nname = \"half\n");
  }

  @Test
  void anEntryThatWasEditedSaysSo() throws IOException {
    Commissioned.tickAll(pump);
    assertThat(sign().exit()).isZero();
    Path settings = pump.resolve("trials").resolve(Commissioned.GOOD).resolve("settings.toml");
    String old = CommandRun.run("report", pump, "--json").json().at("/rests_on/files").toString();
    Files.writeString(settings, Files.readString(settings) + "# later\n");
    JsonNode files = CommandRun.run("report", pump, "--json").json().at("/rests_on/files");
    String text = Files.readString(file());
    for (JsonNode file : files) {
      if (file.path("path").asText().endsWith("settings.toml")) {
        int at = old.indexOf(file.path("path").asText());
        String was = old.substring(old.indexOf("sha256", at) + 9, old.indexOf("sha256", at) + 73);
        text = text.replace(was, file.path("sha256").asText());
      }
    }
    assertThat(text).isNotEqualTo(Files.readString(file()));
    Files.writeString(file(), text);
    assertThat(signature().path("stands").asBoolean()).isFalse();
    assertThat(CommandRun.run("report", pump).out()).contains("this entry was edited");
  }
}
