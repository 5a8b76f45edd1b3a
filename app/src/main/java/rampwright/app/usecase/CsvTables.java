package rampwright.app.usecase;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** How the tables a person writes are read. */
final class CsvTables {
  private static final int HEADER_BYTES = 8192;

  private CsvTables() {}

  /** Spreadsheets of half the world write semicolons; the header tells. */
  static CsvReader.CsvReaderBuilder reader(Path table) throws IOException {
    byte[] begin;
    try (InputStream in = Files.newInputStream(table)) {
      begin = in.readNBytes(HEADER_BYTES);
    }
    String text = new String(begin, StandardCharsets.UTF_8);
    String header = text.lines().findFirst().orElse("");
    return CsvReader.builder()
        .fieldSeparator(header.contains(";") && !header.contains(",") ? ';' : ',')
        .detectBomHeader(true)
        .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
        .extraFieldStrategy(FieldMismatchStrategy.IGNORE);
  }
}
