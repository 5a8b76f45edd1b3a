package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Trace;

/** Behaviour, edges and messages on records made here. */
class ComtradeReaderTest extends ComtradeMadeRecords {
  @Test
  void siblingIsFoundInAnyCaseFromEitherFile() throws Exception {
    Files.writeString(
        folder.resolve("Start7.CFG"), config(IA, "1\n1000,2\n" + DATES + "ASCII\n1\n"));
    Files.writeString(folder.resolve("START7.Dat"), "1,0,2\n2,1000,4\n");
    assertThat(values(read(folder.resolve("Start7.CFG")), ChannelName.I1)).containsExactly(1, 2);
    assertThat(values(read(folder.resolve("START7.Dat")), ChannelName.I1)).containsExactly(1, 2);
  }

  @Test
  void lineEndsBlanksTrailingCommasAndPaddingAreNoMatter() throws Exception {
    String config =
        config(
            "1, IA , A ,, A , 5.0E-1 ,0,0,-32767,32767,1,1,p ,",
            "1\n1000,3,\n" + DATES + "ascii \n1");
    Path file =
        files(config.replace("\n", "\r"), "  1,   0, 2,\r\n 2,1000,+04,\r\n\r\n3,2000, -6,\u001a");
    assertThat(values(read(file), ChannelName.I1)).containsExactly(1, 2, -3);
  }

  @Test
  void missingValuesFollowTheEdition() throws Exception {
    String wide = "1,IA,A,,A,1,0,0,-999999,999999,1,1,P";
    Path file = simple(wide, "1,0,99999\n2,1000,999999\n3,2000,\n");
    // 1999: 99999 marks a missing value whatever the range; a blank does in any edition.
    assertThat(values(read(file), ChannelName.I1)).containsExactly(Double.NaN, 999999, Double.NaN);
    Path of2013 =
        files(
            config(wide, "1\n1000,3\n" + DATES + "ASCII\n1\n0,0\n0,0\n").replace("1999", "2013"),
            "1,0,99999\n2,1000,nan\n3,2000,1.5e1\n");
    assertThat(values(read(of2013), ChannelName.I1)).containsExactly(99999, Double.NaN, 15);
    Path of1991 =
        files(
            config("1,IA,A,,A,1,0,0,-999999,999999", "1\n1000,3\n" + DATES + "ASCII\n")
                .replace(",1999", ""),
            "1,0,99999\n2,1000,999999\n3,2000,7\n");
    assertThat(values(read(of1991), ChannelName.I1)).containsExactly(99999, Double.NaN, 7);
  }

  @Test
  void numbersBeyondAllMeasureDoNoHarm() throws Exception {
    assertThat(
            problem(files(config(IA, "1\n1e-320,3\n" + DATES + "ASCII\n1\n"), "1,0,2\n2,1000,4\n")))
        .hasMessageContaining("r.cfg line 6 column 1: rate");
    Path large =
        files(
            config(IA.replace("0.5", "1e308"), "0\n0,3\n" + DATES + "ASCII\n1e300\n"),
            "1,0,1\n2,1000,1000\n3,2000,-1\n4,1e300,1\n");
    Trace trace = read(large);
    assertThat(values(trace, ChannelName.I1)).containsExactly(1e308, Double.NaN, -1e308);
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("time multiplier 1.0E300"));
  }

  @Test
  void withoutRatesTheStampsTimesTheMultiplierRule() throws Exception {
    Path even = files(config(IA, "0\n0,3\n" + DATES + "ASCII\n10\n"), "1,0,2\n2,100,4\n3,200,6\n");
    assertThat(read(even).time()).isInstanceOf(EvenTime.class);
    assertThat(read(even).time().atS(2)).isEqualTo(0.002, within(EXACT));
    // Without the line "0,3", which some writers leave out; uneven, one stamp missing, one back.
    Path uneven =
        files(
            config(IA, "0\n" + DATES + "ASCII\n1\n"), "1,0,2\n2,100,4\n3,,6\n4,90,8\n5,5000,10\n");
    Trace trace = read(uneven);
    assertThat(values(trace, ChannelName.I1)).containsExactly(1, 2, 5);
    assertThat(trace.time().atS(2)).isEqualTo(0.005, within(EXACT));
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("2 records have no stamp"));
    Path none = files(config(IA, "0\n0,3\n" + DATES + "ASCII\n1\n"), "1,,2\n2,,4\n3,,6\n");
    assertThat(problem(none)).hasMessageContaining("no rising time stamps");
  }

  @Test
  void nanosecondDatesMakeNanosecondStamps() throws Exception {
    String nano = "14/03/2026,09:12:05.000000250\n14/03/2026,09:12:06.000000000\n";
    Path file =
        files(
            config(IA, "0\n0,3\n" + nano + "ASCII\n1\n+1,0\n0,0\n").replace("1999", "2013"),
            "1,0,2\n2,100000,4\n3,200000,6\n");
    Trace trace = read(file);
    assertThat(trace.time().typicalStepS()).isEqualTo(1e-4, within(EXACT));
    assertThat(trace.provenance().startUtc()).isEqualTo("2026-03-14T08:12:05.000000250Z");
  }

  @Test
  void stampsWithAGapInsideAStretchRuleAndItIsSaid() throws Exception {
    Path file =
        files(
            config(IA, "1\n1000,6\n" + DATES + "ASCII\n1\n"),
            "1,0,1\n2,1000,1\n3,2000,1\n4,9000,1\n5,10000,1\n6,11000,1\n");
    Trace trace = read(file);
    assertThat(trace.time().atS(3)).isEqualTo(0.009, within(EXACT));
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("the stamps are taken"));
  }

  @Test
  void statusBitsAreCountedFromTheLowBitOfEachWord() throws Exception {
    StringBuilder statuses = new StringBuilder();
    for (int i = 1; i <= 17; i++) {
      statuses.append(i).append(",s").append(i).append(",,,0\n");
    }
    ByteBuffer data = ByteBuffer.allocate(14).order(ByteOrder.LITTLE_ENDIAN);
    data.putInt(1).putInt(0).putShort((short) 2).putShort((short) 0x8002).putShort((short) 1);
    Path file =
        files(
            "plant,recorder,1999\n18,1A,17D\n"
                + IA
                + "\n"
                + statuses
                + "50\n1\n1000,1\n"
                + DATES
                + "BINARY\n1\n",
            data.array());
    ComtradeFile record = ComtradeFile.open(file);
    for (int i = 0; i < 17; i++) {
      assertThat(record.status(i)).containsExactly(i == 1 || i == 15 || i == 16 ? 1 : 0);
    }
  }

  @Test
  void binaryStampsThatStartAgainGoOnRising() throws Exception {
    ByteBuffer data = ByteBuffer.allocate(10 * 4).order(ByteOrder.LITTLE_ENDIAN);
    long start = 3_000_000_000L;
    for (int i = 0; i < 4; i++) {
      data.putInt(i + 1).putInt((int) (start + i * 1_000_000_000L)).putShort((short) 2);
    }
    Path file = files(config(IA, "0\n0,4\n" + DATES + "BINARY\n1\n"), data.array());
    Trace trace = read(file);
    assertThat(trace.size()).isEqualTo(4);
    assertThat(trace.time().atS(3) - trace.time().atS(0)).isEqualTo(3000, within(1e-6));
  }

  @Test
  void truncatedDataKeepTheirWholeRecords() throws Exception {
    Path text = simple(IA + "\n2,IB,B,,A,1,0,0,-1,1,1,1,P", "1,0,2,3\n2,1000,4,5\n3,20");
    Trace trace = read(text);
    assertThat(values(trace, ChannelName.I1)).containsExactly(1, 2);
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("last line is cut off"))
        .anyMatch(line -> line.contains("promises 3 samples, the data hold 2"));
    byte[] bytes = new byte[25];
    bytes[0] = 1;
    bytes[10] = 2;
    Path binary = files(config(IA, "1\n1000,3\n" + DATES + "BINARY\n1\n"), bytes);
    Trace cut = read(binary);
    assertThat(cut.size()).isEqualTo(2);
    assertThat(cut.provenance().warnings())
        .anyMatch(line -> line.contains("5 bytes at the end left out"));
  }

  @Test
  void recordsThatAreWrongHereAndThereAreTakenAsMissingAndCounted() throws Exception {
    StringBuilder data = new StringBuilder();
    for (int i = 1; i <= 40; i++) {
      data.append(i).append(',').append((i - 1) * 1000).append(i == 7 ? "" : i == 9 ? ",x7" : ",2");
      data.append(i == 11 ? ",5,6\n" : "\n");
    }
    Path file = files(config(IA, "1\n1000,40\n" + DATES + "ASCII\n1\n"), data.toString());
    Trace trace = read(file);
    assertThat(trace.size()).isEqualTo(40);
    assertThat(values(trace, ChannelName.I1)[6]).isNaN();
    assertThat(values(trace, ChannelName.I1)[8]).isNaN();
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.startsWith("r.dat line 7: the record ends after 2 of 3 values"))
        .anyMatch(line -> line.startsWith("r.dat line 9 column 3: \"x7\" is not a number"))
        .anyMatch(line -> line.startsWith("r.dat line 11: more than 3 values"));
  }

  @Test
  void dataThatDoNotFitTheConfigurationAreRefused() throws Exception {
    assertThat(problem(simple(IA, "1,0\n2,1000\n3,2000\n")))
        .hasMessageContaining("r.dat line 1 column 2: the first record has 2 values");
    assertThat(problem(simple(IA, "1,0,a\n2,1000,b\n3,2000,c\n")))
        .hasMessageContaining("r.dat line 1 column 3: \"a\" is not a number");
    ByteBuffer wrong = ByteBuffer.allocate(12 * 40).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < 40; i++) {
      wrong.putInt(i + 1).putInt(i * 1000).putInt(7 * i);
    }
    Path file = files(config(IA, "1\n1000,40\n" + DATES + "BINARY\n1\n"), wrong.array());
    assertThat(problem(file)).hasMessageContaining("the data do not fit the configuration");
  }

  @Test
  void hopelessFilesAreRefusedWithTheRemedy() throws Exception {
    Path lone = folder.resolve("lone.cfg");
    Files.writeString(lone, config(IA, "1\n1000,3\n" + DATES + "ASCII\n1\n"));
    assertThat(problem(lone)).hasMessageContaining("data file lone.dat is not beside it");
    Path empty = folder.resolve("empty.cfg");
    Files.writeString(empty, "");
    assertThat(problem(empty)).hasMessageContaining("empty (0 bytes)");
    assertThat(problem(folder.resolve("none.cfg"))).hasMessageContaining("no such file");
    assertThat(problem(folder)).hasMessageContaining("not a file");
    assertThat(problem(files("a,b,1999\n2147483648,2147483648A,0D\n", "1,0,1\n")))
        .hasMessageContaining("r.cfg line 2 column 2: promises 2147483648 analog");
    assertThat(problem(files("a,b,1999\n1,1A,0D\n" + IA + "\n50\n999999999\n1,1\n", "1,0,1\n")))
        .hasMessageContaining("promises 999999999 sampling rates, but only 1 lines follow");
    assertThat(problem(files("a,b,1999\n1,1A,0D\n" + IA + "\n", "1,0,1\n")))
        .hasMessageContaining("r.cfg line 3: the configuration ends where the line frequency");
    assertThat(problem(files(config(IA.replace("0.5", "half"), ""), "1,0,1\n")))
        .hasMessageContaining("r.cfg line 3 column 6: factor a: expected a number, found \"half\"");
    assertThat(problem(files(config(IA, "1\n1000,3\n" + DATES + "BINARY64\n1\n"), "1,0,1\n")))
        .hasMessageContaining("r.cfg line 9 column 1: expected ASCII, BINARY, BINARY32 or FLOAT32");
    Files.writeString(folder.resolve("s.cff"), "no sections here\n");
    assertThat(problem(folder.resolve("s.cff"))).hasMessageContaining("expected a section head");
  }

  @Test
  void singleFileWithTooLargeAByteCountUsesWhatIsThere() throws Exception {
    String head =
        "--- file type: CFG ---\n"
            + config(IA, "1\n1000,9\n" + DATES + "BINARY\n1\n")
            + "--- file type: INF ---\nabout\n--- file type: HDR ---\nhead\n--- file type: DAT BINARY: 90 ---\n";
    ByteBuffer data = ByteBuffer.allocate(20).order(ByteOrder.LITTLE_ENDIAN);
    data.putInt(1).putInt(0).putShort((short) 2).putInt(2).putInt(1000).putShort((short) -4);
    Path file = folder.resolve("s.cff");
    Files.write(file, head.getBytes(StandardCharsets.UTF_8));
    Files.write(file, data.array(), StandardOpenOption.APPEND);
    Trace trace = read(file);
    assertThat(values(trace, ChannelName.I1)).containsExactly(1, -2);
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("should have 90 bytes, but only 20 follow"));
    assertThat(trace.provenance().notes()).contains("head");
    assertThat(ComtradeFile.open(file).information()).isEqualTo("about\n");
  }

  @Test
  void chineseTextWithoutAnyMarkIsReadAsSuch() throws Exception {
    String station = "\u53d8\u7535\u7ad9\u4e3b\u53d8\u9ad8\u538b\u4fa7\u7535\u6d41";
    Path file = simple(IA, "1,0,2\n2,1000,4\n3,2000,6\n");
    String config = Files.readString(file).replace("plant", station);
    Files.write(file, config.getBytes(Charset.forName("GB18030")));
    assertThat(ComtradeFile.open(file).config().station()).isEqualTo(station);
  }

  @Test
  void samplesBeyondTheHeapGoToAFileAndComeBackTheSame() throws Exception {
    int rows = 20_000;
    ByteBuffer data = ByteBuffer.allocate(10 * rows).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < rows; i++) {
      data.putInt(i + 1).putInt(i * 1000).putShort((short) (i % 1000));
    }
    Path file =
        files(config(IA, "2\n1000,9000\n2000,20000\n" + DATES + "BINARY\n1\n"), data.array());
    ComtradeFile record = ComtradeFile.open(file);
    Trace onHeap = ComtradeReader.read(record, ReadOptions.DEFAULT, Long.MAX_VALUE);
    Trace mapped = ComtradeReader.read(record, ReadOptions.DEFAULT, 1);
    assertThat(values(mapped, ChannelName.I1)).containsExactly(values(onHeap, ChannelName.I1));
    assertThat(mapped.time().atS(19_999)).isEqualTo(onHeap.time().atS(19_999));
    assertThat(onHeap.size()).isEqualTo(rows);
  }

  @Test
  void hashIsOfConfigurationAndData() throws Exception {
    Path file = simple(IA, "1,0,2\n2,1000,4\n3,2000,6\n");
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    digest.update(Files.readAllBytes(file));
    digest.update(Files.readAllBytes(folder.resolve("r.dat")));
    assertThat(read(file).provenance().sha256())
        .isEqualTo(HexFormat.of().formatHex(digest.digest()));
  }

  private static String recordsIn(String order) {
    StringBuilder data = new StringBuilder();
    for (String number : order.split(" ", -1)) {
      data.append(number).append(',').append(1000 * Integer.parseInt(number)).append(",7\n");
    }
    return data.toString();
  }

  @Test
  void recordsOutOfTheirOrderAreRefusedOrSaid() throws Exception {
    // Read on by the rate alone, a start that stands backwards would be read as a stop.
    assertThat(problem(simple(IA, recordsIn("6 5 4 3 2 1"))))
        .hasMessageContaining("record numbers fall at 5 of 6 records");
    assertThat(read(simple(IA, recordsIn("1 2 3 3 4 5"))).provenance().warnings())
        .contains(
            "r.dat: record numbers fall at 1 places, first at record 4; records may be out of order or"
                + " come twice");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0,1 | a leap second was added during the record",
        "F,2 | a leap second was taken out during the record"
      })
  void leapSecondsAreTold(String line, String remark) throws Exception {
    String config =
        config(IA, "1\n1000,3\n" + DATES + "ASCII\n1\n0,0\n" + line + "\n").replace("1999", "2013");
    assertThat(read(files(config, recordsIn("1 2 3"))).provenance().warnings().toString())
        .contains(remark);
  }
}
