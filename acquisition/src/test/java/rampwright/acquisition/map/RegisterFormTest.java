package rampwright.acquisition.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Numbers in registers. Bit patterns of floats: IEEE 754, worked by hand. */
class RegisterFormTest {
  @ParameterizedTest
  @CsvSource({
    // 1.0f is 0x3F800000, -2.0f 0xC0000000 (IEEE 754 binary32)
    "F32, true, true, 3F80 0000, 1",
    "F32, false, true, 0000 3F80, 1",
    "F32, true, false, 803F 0000, 1",
    "F32, false, false, 0000 803F, 1",
    "F32, true, true, C000 0000, -2",
    // 1.0 is 0x3FF0000000000000 (binary64)
    "F64, true, true, 3FF0 0000 0000 0000, 1",
    "F64, false, true, 0000 0000 0000 3FF0, 1",
    "U16, true, true, FFFF, 65535",
    "I16, true, true, FFFF, -1",
    "I16, true, false, FEFF, -2",
    "U32, true, true, 0001 0000, 65536",
    "U32, false, true, 0001 0000, 1",
    "U32, true, true, FFFF FFFF, 4294967295",
    "I32, true, true, FFFF FFFE, -2",
    "BIT, true, true, 0001, 1",
    "BIT, true, true, 0000, 0",
    // the protocol's own example: 0x022B is 555
    "U16, true, true, 022B, 555"
  })
  void wordsMeanTheNumber(
      RegisterType type, boolean highWord, boolean highByte, String hex, double number) {
    RegisterForm form = new RegisterForm(type, highWord, highByte);
    assertThat(form.decode(words(hex))).isEqualTo(number);
    assertThat(form.encode(number)).containsExactly(words(hex));
  }

  @ParameterizedTest
  @EnumSource(RegisterType.class)
  void whateverIsEncodedComesBack(RegisterType type) {
    Random random = new Random(4);
    for (int i = 0; i < 2000; i++) {
      RegisterForm form = new RegisterForm(type, random.nextBoolean(), random.nextBoolean());
      int[] words = new int[type.words()];
      for (int k = 0; k < words.length; k++) {
        words[k] = type == RegisterType.BIT ? random.nextInt(2) : random.nextInt(65536);
      }
      if (type == RegisterType.BIT && !form.highByteFirst()) {
        continue;
      }
      double value = form.decode(words);
      if (!Double.isNaN(value)) {
        assertThat(form.encode(value)).as("%s %s", form, value).containsExactly(words);
      }
    }
  }

  @Test
  void encodingStopsAtTheEndsOfTheRange() {
    assertThat(new RegisterForm(RegisterType.U16, true, true).encode(70000)[0]).isEqualTo(65535);
    assertThat(new RegisterForm(RegisterType.U16, true, true).encode(-3)[0]).isZero();
    assertThat(new RegisterForm(RegisterType.I16, true, true).encode(-40000)[0]).isEqualTo(0x8000);
  }

  private static int[] words(String hex) {
    String[] parts = hex.split(" ");
    int[] words = new int[parts.length];
    for (int i = 0; i < parts.length; i++) {
      words[i] = Integer.parseInt(parts[i], 16);
    }
    return words;
  }
}
