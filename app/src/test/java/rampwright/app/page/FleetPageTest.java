package rampwright.app.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.trend.AssetFacts;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.Mark;
import rampwright.app.trend.StartsOfYears;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.Trends;

class FleetPageTest {
  private static final String HOSTILE =
      "<img src=x onerror=document.title='broken'></title></style><script>document.title='broken'"
          + "</script>\" onload=\"x' & \u202e";

  @TempDir private Path folder;

  private static AssetTrend asset(String id, String name, List<LoggedStart> starts) {
    TrendQuestion question =
        new TrendQuestion(
            "start_time_s", starts, List.of(), OptionalDouble.of(13), OptionalDouble.empty());
    List<Mark> marks =
        List.of(new Mark(starts.get(starts.size() / 3).at(), Mark.Kind.WORK, name, name));
    return new AssetTrend(
        id,
        new AssetFacts(name, name, ZoneId.of("+05:45")),
        starts.size(),
        List.of(Trends.of(question)),
        marks,
        List.of());
  }

  private static List<AssetTrend> fleet() {
    List<AssetTrend> assets = new ArrayList<>();
    assets.add(asset("D-1", "drifts", new StartsOfYears(5).drift(0.1, 0).make(400)));
    assets.add(asset("S-1", "steps", new StartsOfYears(2).step(0.12, 150).make(200)));
    assets.add(asset("F-1", "few", new StartsOfYears(2).make(5)));
    assets.add(asset(HOSTILE, HOSTILE, new StartsOfYears(3).step(0.5, 60).make(90)));
    assets.add(asset("O-1", "one start", new StartsOfYears(4).make(1)));
    LoggedStart same = new LoggedStart(Instant.EPOCH, "a", 5, Double.NaN, true);
    assets.add(asset("E-1", "equal", java.util.Collections.nCopies(30, same)));
    return assets;
  }

  private static String page() {
    return FleetPage.html(fleet(), Map.of(), "Made today");
  }

  @Test
  void everyTextIsEscaped() {
    String html = page();
    assertThat(html).contains("\ufffd").doesNotContain("\u202e");
    assertThat(html).contains("&lt;img src=x").doesNotContain("<img", "<script", "<iframe");
    // in an attribute quotes are escaped too; as text they may stand
    assertThat(html).contains("&#34; onload=&#34;x").doesNotContainPattern("<[^>]*\\sonload=\"");
  }

  @Test
  void thePageNeedsNothingButItself() {
    String html = page();
    assertThat(html.replaceAll("(?s)<style>.*?</style>", ""))
        .doesNotContain("http:", "https:", "url(", "@import", "src=\"", "<link");
    assertThat(html).contains("default-src 'none'").contains("<!DOCTYPE html>");
    assertThat(html).doesNotContain("NaN", "Infinity", "null");
  }

  @Test
  void anEmptyFleetHasAPage() {
    assertThat(FleetPage.html(List.of(), Map.of(), "Made today"))
        .contains("0 assets", "No figure changed");
  }

  /** What the page is like in a browser: nothing sticks out, no text became markup. */
  @Test
  void aBrowserShowsItOnAPhoneAndOnADesk() throws Exception {
    String probe =
        "<script>window.onload=function(){var wide=[];document.querySelectorAll('body *')"
            + ".forEach(function(e){if(e.getBoundingClientRect().right>innerWidth+1"
            + "&&!e.closest('svg')&&!e.closest('thead')&&!e.matches('.skip'))"
            + "wide.push(e.tagName+'.'+e.className)});"
            + "document.querySelectorAll('summary')[0].click();"
            + "parent.postMessage([innerWidth,"
            + "document.documentElement.scrollWidth<=innerWidth,wide.length,"
            + "document.querySelectorAll('article').length,document.images.length,"
            + "document.querySelectorAll('a[href],summary').length>10,"
            + "document.querySelectorAll('details')[0].open,"
            + "Array.from(document.querySelectorAll('a[href^=\"#\"]')).every(function(a){"
            + "return document.getElementById(a.getAttribute('href').slice(1))}),"
            + "document.title.indexOf('Fleet')].join(),'*')}"
            + "</script>";
    Path file = folder.resolve("page.html");
    Files.writeString(
        file,
        page()
            .replaceAll("<meta http-equiv=\"Content-Security-Policy\"[^>]*>", "")
            .replace("</body>", probe + "</body>"));
    for (int width : new int[] {360, 1200}) {
      // a frame may be narrower than any window of a browser
      Path frame = folder.resolve("frame-" + width + ".html");
      Files.writeString(
          frame,
          "<body><script>onmessage=function(e){document.body.setAttribute('data-probe',e.data)}"
              + "</script><iframe style='border:0' width="
              + width
              + " height=900 src='page.html'></iframe>");
      assertThat(dump(frame, width))
          .contains("data-probe=\"" + width + ",true,0,6,0,true,false,true,0\"");
    }
  }

  private String dump(Path file, int width) throws Exception {
    Path browser = browser();
    Path out = folder.resolve("dom-" + width + ".html");
    Process process =
        new ProcessBuilder(
                browser.toString(),
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
    for (String folder : String.valueOf(System.getenv("PATH")).split(java.io.File.pathSeparator)) {
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
