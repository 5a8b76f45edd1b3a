package rampwright.app.page.record;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import rampwright.app.CommandRun;
import rampwright.app.fixture.Commissioned;
import rampwright.app.json.ResultSchemaValidator;

/** The page is safe whatever a folder holds, and can be read wherever it is. */
class RecordPageTest {
  private static final String HOSTILE =
      "<img src=x onerror=document.title='broken'></title></style><script>document.title='broken'"
          + "</script> onload=x & ${1+1} ]]> --> \u202e";

  @TempDir private Path folder;
  private Path pump = Path.of("");

  @BeforeEach
  void layOut() throws IOException {
    pump = Commissioned.pump(folder);
    Commissioned.sheet(pump, "\"Booster pump 2\"", "'''" + HOSTILE + "'''");
    Commissioned.trial(
        pump,
        "20260314T090000Z",
        470,
        "\n[trial]\nreason = '''"
            + HOSTILE
            + "'''\n[seen]\npeak_current_ratio = 3.1\nby = '''"
            + HOSTILE
            + "'''\nnote = '''"
            + "W".repeat(400)
            + "'''\n");
    Path strange = pump.resolve("trials/20260314T093000Z");
    Files.createDirectories(strange);
    Files.writeString(strange.resolve("trace.csv"), HOSTILE);
    String note = HOSTILE.replace("\u202e", "");
    CommandRun.run("ready", pump, "--tick", 3, "--by", "<b>me</b>", "--note", note);
    CommandRun.run(
        "report", pump, "--sign", "<b>me</b>", "--despite", note, "--role", note, "--note", note);
  }

  private String page() throws IOException {
    assertThat(CommandRun.run("report", pump).exit()).isEqualTo(6);
    return Files.readString(pump.resolve("record.html"));
  }

  @Test
  void everyTextIsEscaped() throws IOException {
    String html = page();
    assertThat(html).contains("\ufffd").doesNotContain("\u202e");
    assertThat(html)
        .contains("&lt;img src=x", "&lt;b&gt;me&lt;/b&gt;")
        .doesNotContain("<img", "<script", "<iframe", "<b>me</b>");
  }

  @Test
  void thePageNeedsNothingButItself() throws IOException {
    String html = page();
    assertThat(html.replaceAll("(?s)<style>.*?</style>", ""))
        .doesNotContain("http:", "https:", "url(", "@import", "src=\"", "<link");
    assertThat(html).contains("default-src 'none'").contains("<!DOCTYPE html>");
    assertThat(html).doesNotContain("NaN", "Infinity", ">null<");
  }

  @Test
  void whatMachinesReadIsValidToo() {
    CommandRun.Answer answer = CommandRun.run("report", pump, "--json");
    assertThat(ResultSchemaValidator.problems(answer.out())).isEmpty();
    assertThat(answer.json().at("/asset/name").asText()).startsWith("<img src=x");
  }

  /** Well-formed as XML, every id once, every link to one of them, every cell in a row. */
  @Test
  void theMarkupIsWhole() throws Exception {
    Document document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(page().getBytes(StandardCharsets.UTF_8)));
    List<String> ids = new ArrayList<>();
    List<String> links = new ArrayList<>();
    int rows = 0;
    var all = document.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      if (element.hasAttribute("id")) {
        ids.add(element.getAttribute("id"));
      }
      if (element.getTagName().equals("a")) {
        links.add(element.getAttribute("href").substring(1));
      }
      rows += element.getTagName().equals("tr") ? 1 : 0;
    }
    assertThat(ids).doesNotHaveDuplicates().hasSizeGreaterThan(20);
    assertThat(ids).containsAll(links);
    assertThat(links).isNotEmpty();
    assertThat(rows).isGreaterThan(80);
    assertThat(document.getElementsByTagName("svg").getLength()).isGreaterThan(3);
  }

  /** What the page is like in a browser: nothing sticks out, no text became markup. */
  @Test
  void aBrowserShowsItOnAPhoneAndOnADesk() throws Exception {
    String probe =
        "<script>window.onload=function(){var wide=[];document.querySelectorAll('body *')"
            + ".forEach(function(e){if(e.getBoundingClientRect().right>innerWidth+1"
            + "&&!e.closest('svg')&&!e.closest('thead'))wide.push(e.tagName+'.'+e.className)});"
            + "parent.postMessage([innerWidth,"
            + "document.documentElement.scrollWidth<=innerWidth,wide.length,"
            + "document.images.length,document.title.indexOf('Commissioning')].join(),'*')}"
            + "</script>";
    Files.writeString(
        folder.resolve("page.html"),
        page()
            .replaceAll("<meta http-equiv=\"Content-Security-Policy\"[^>]*>", "")
            .replace("</body>", probe + "</body>"));
    for (int width : new int[] {360, 1200}) {
      Path frame = folder.resolve("frame-" + width + ".html");
      Files.writeString(
          frame,
          "<body><script>onmessage=function(e){document.body.setAttribute('data-probe',e.data)}"
              + "</script><iframe style='border:0' width="
              + width
              + " height=900 src='page.html'></iframe>");
      assertThat(dump(frame, width)).contains("data-probe=\"" + width + ",true,0,0,0\"");
    }
  }

  private String dump(Path file, int width) throws Exception {
    Path out = folder.resolve("dom-" + width + ".html");
    Process process =
        new ProcessBuilder(
                browser().toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--user-data-dir=" + folder.resolve("profile-" + width),
                "--window-size=" + width + ",900",
                "--virtual-time-budget=5000",
                "--dump-dom",
                file.toUri().toString())
            .redirectOutput(out.toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    assertThat(process.waitFor(90, TimeUnit.SECONDS)).as("the browser ends").isTrue();
    return Files.readString(out);
  }

  private static Path browser() {
    for (String folder : String.valueOf(System.getenv("PATH")).split(File.pathSeparator)) {
      for (String name : new String[] {"chromium", "chromium-browser"}) {
        Path found = Path.of(folder).resolve(name);
        if (Files.isExecutable(found)) {
          return found;
        }
      }
    }
    Assumptions.abort("no chromium on the PATH; the page was not looked at in a browser");
    throw new IllegalStateException("not reached");
  }
}
