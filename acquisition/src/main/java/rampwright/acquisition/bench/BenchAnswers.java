package rampwright.acquisition.bench;

/**
 * Answers to Modbus questions, without the frame around them.
 *
 * <p>Source: MODBUS Application Protocol Specification V1.1b3, sections 6.1 to 6.4 and 7. Written
 * here and not taken from the library: its server takes writes, cannot be made to answer wrongly on
 * demand, and lets clients beyond its pool wait without a word.
 */
final class BenchAnswers {
  /** Illegal function. */
  private static final int NO_SUCH_FUNCTION = 1;

  private static final int NO_SUCH_ADDRESS = 2;
  private static final int BAD_VALUE = 3;

  /** Server device failure. */
  static final int DEVICE_FAILURE = 4;

  /** Gateway target device failed to respond. */
  static final int NO_SUCH_UNIT = 11;

  private static final int QUESTION_BYTES = 5;
  private static final int MOST_BITS = 2000;
  private static final int MOST_REGISTERS = 125;

  private final BenchRegisters registers;

  BenchAnswers(BenchRegisters registers) {
    this.registers = registers;
  }

  /** The answer to a question: function code and data. Anything but functions 1 to 4 is refused. */
  byte[] answer(byte[] question) {
    int function = question.length == 0 ? 0 : question[0] & 0xff;
    if (function < 1 || function > 4) {
      return refusal(function, NO_SUCH_FUNCTION);
    }
    if (question.length != QUESTION_BYTES) {
      return refusal(function, BAD_VALUE);
    }
    int from = word(question, 1);
    int count = word(question, 3);
    boolean bits = function <= 2;
    if (count < 1 || count > (bits ? MOST_BITS : MOST_REGISTERS)) {
      return refusal(function, BAD_VALUE);
    }
    if (bits ? !BenchRegisters.hasBits(from, count) : !BenchRegisters.hasRegisters(from, count)) {
      return refusal(function, NO_SUCH_ADDRESS);
    }
    if (bits) {
      return new byte[] {(byte) function, 1, (byte) (registers.run() ? 1 : 0)};
    }
    int[] words = registers.registers(from, count);
    byte[] answer = new byte[2 + 2 * count];
    answer[0] = (byte) function;
    answer[1] = (byte) (2 * count);
    for (int k = 0; k < count; k++) {
      answer[2 + 2 * k] = (byte) (words[k] >>> 8);
      answer[3 + 2 * k] = (byte) words[k];
    }
    return answer;
  }

  /** An exception answer. */
  static byte[] refusal(int function, int code) {
    return new byte[] {(byte) (function | 0x80), (byte) code};
  }

  static int word(byte[] bytes, int at) {
    return ((bytes[at] & 0xff) << 8) | (bytes[at + 1] & 0xff);
  }
}
