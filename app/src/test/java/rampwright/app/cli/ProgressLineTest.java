package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class ProgressLineTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter talk = new StringWriter();

  private void work(boolean interactive, int total) {
    ProgressLine line = new ProgressLine(new Screen(out, talk, interactive));
    line.begun(total);
    for (int i = 1; i <= total; i++) {
      line.done("t" + i, i == 2);
    }
    line.ended();
  }

  @Test
  void aPersonSeesABarThatFills() {
    work(true, 4);
    assertThat(talk.toString())
        .contains("\r[#######.......................] 1 of 4")
        .contains("\r[##############################] 4 of 4, 1 not read\n");
    assertThat(out.toString()).as("results are not touched").isEmpty();
  }

  @Test
  void aMachineSeesFailuresOnly() {
    work(false, 4);
    assertThat(talk.toString()).isEqualTo("not read: t2\n");
  }

  @Test
  void longWorkSaysEachTenthToAMachine() {
    work(false, 10_000);
    assertThat(talk.toString())
        .startsWith("not read: t2\n1000 of 10000\n2000 of 10000\n")
        .endsWith("10000 of 10000\n")
        .hasLineCount(11);
  }

  @Test
  void shortWorkShowsNothing() {
    work(true, 3);
    assertThat(talk.toString()).isEmpty();
  }
}
