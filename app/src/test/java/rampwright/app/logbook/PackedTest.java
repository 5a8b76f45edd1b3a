package rampwright.app.logbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PackedTest {
  @Test
  void whatIsPackedIsTheSameAgain() throws Exception {
    byte[] plain = new byte[100_000];
    new Random(7).nextBytes(plain);
    Arrays.fill(plain, 0, 50_000, (byte) 3);
    assertThat(Packed.plain(Packed.of(plain))).isEqualTo(plain);
    assertThat(Packed.of(plain)).hasSizeLessThan(51_000);
    assertThat(Packed.plain(Packed.of(new byte[0]))).isEmpty();
  }

  @Test
  void aFileThatSwellsWithoutEndIsDamaged() {
    byte[] bomb = Packed.of(new byte[90 << 20]);
    assertThat(bomb).hasSizeLessThan(100_000);
    assertThatThrownBy(() -> Packed.plain(bomb)).isInstanceOf(IOException.class);
    assertThatThrownBy(() -> Packed.plain(new byte[] {1, 2, 3})).isInstanceOf(IOException.class);
  }
}
