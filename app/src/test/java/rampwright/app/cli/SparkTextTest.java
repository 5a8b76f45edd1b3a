package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.StartsOfYears;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.Trends;

class SparkTextTest {
  private static final FigureTrend STEP =
      Trends.of(
          new TrendQuestion(
              "start_time_s",
              new StartsOfYears(3).season(0).scatter(0.01).step(0.6, 100).make(200),
              List.of(),
              OptionalDouble.empty(),
              OptionalDouble.empty()));

  private static String spark(boolean plain, Map<String, String> environment) {
    return SparkText.of(plain, environment::get).of(STEP);
  }

  @Test
  void aStepGoesFromTheLowestBlockToTheHighest() {
    String blocks = spark(false, Map.of("LANG", "de_DE.UTF-8"));
    assertThat(blocks).startsWith("\u2581").endsWith("\u2588").hasSize(12);
  }

  @Test
  void plainSignsWhereBlocksCannotBeHad() {
    for (Map<String, String> environment :
        List.of(
            Map.<String, String>of(),
            Map.of("LANG", "C"),
            Map.of("LANG", "C.UTF-8", "LC_ALL", "POSIX"),
            Map.of("LANG", "C.UTF-8", "TERM", "dumb"))) {
      assertThat(spark(false, environment)).matches("[_.=*# -]+").startsWith("_").endsWith("#");
    }
    assertThat(spark(true, Map.of("LANG", "C.UTF-8"))).startsWith("_");
  }
}
