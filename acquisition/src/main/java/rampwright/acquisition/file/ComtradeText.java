package rampwright.acquisition.file;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The lines of a configuration, whatever they are encoded in.
 *
 * <p>The standard asks for ASCII (2013: UTF-8); recorders write what their country writes. Strict
 * UTF-8 comes first. If that fails and the text is plainly double-byte Chinese it is read as
 * GB18030, else as ISO 8859-1, in which every byte is some letter. Only names depend on it.
 *
 * @param lines without their ends, without control characters such as the 0x1A some systems end a
 *     text with
 * @param encoding name of the encoding taken
 */
record ComtradeText(List<String> lines, String encoding) {
  private static final int PLAINLY = 16;

  static ComtradeText of(byte[] bytes) {
    Charset charset = charset(bytes);
    String text = charset.decode(ByteBuffer.wrap(bytes)).toString();
    List<String> lines =
        text.lines().map(line -> line.replaceAll("[\\p{Cntrl}\uFEFF]", "")).toList();
    return new ComtradeText(lines, charset.name());
  }

  private static Charset charset(byte[] bytes) {
    int mark = bytes.length < 2 ? 0 : ((bytes[0] & 0xff) << 8) | (bytes[1] & 0xff);
    if (mark == 0xfeff || mark == 0xfffe) {
      return StandardCharsets.UTF_16;
    }
    if (decodes(bytes, StandardCharsets.UTF_8)) {
      return StandardCharsets.UTF_8;
    }
    if (pairsOfHighBytes(bytes) && Charset.isSupported("GB18030")) {
      Charset chinese = Charset.forName("GB18030");
      if (decodes(bytes, chinese)) {
        return chinese;
      }
    }
    return StandardCharsets.ISO_8859_1;
  }

  private static boolean decodes(byte[] bytes, Charset charset) {
    try {
      charset
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .onUnmappableCharacter(CodingErrorAction.REPORT)
          .decode(ByteBuffer.wrap(bytes));
      return true;
    } catch (CharacterCodingException e) {
      return false;
    }
  }

  /** Many bytes above 0xA0, always an even number of them side by side: GB 2312 text. */
  private static boolean pairsOfHighBytes(byte[] bytes) {
    int high = 0;
    int run = 0;
    for (byte b : bytes) {
      if ((b & 0xff) > 0xa0) {
        high++;
        run++;
      } else if (b < 0 || run % 2 != 0) {
        return false;
      } else {
        run = 0;
      }
    }
    return high >= PLAINLY && run % 2 == 0;
  }
}
