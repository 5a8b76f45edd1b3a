package rampwright.app.usecase;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The table that names the asset of each of many loose files: a CSV file with the columns {@code
 * file} and {@code asset}. Paths are taken from the table's own folder.
 */
public final class AssetTable {
  private AssetTable() {}

  /**
   * Asset file of each trace, both as normalized absolute paths.
   *
   * @throws InputProblem with every line that is wrong
   */
  public static Map<Path, Path> read(Path table) throws InputProblem {
    Path folder = table.toAbsolutePath().normalize().getParent();
    if (folder == null) {
      throw new InputProblem(table + ": is not a file");
    }
    List<String> problems = new ArrayList<>();
    Map<Path, Path> assets = new HashMap<>();
    try (CsvReader<CsvRecord> rows = CsvTables.reader(table).ofCsvRecord(table)) {
      int file = -1;
      int asset = -1;
      for (CsvRecord row : rows) {
        List<String> cells = row.getFields();
        if (file < 0) {
          List<String> header =
              cells.stream().map(cell -> cell.strip().toLowerCase(Locale.ROOT)).toList();
          file = header.indexOf("file");
          asset = header.indexOf("asset");
          if (file < 0 || asset < 0) {
            throw new InputProblem(
                table + " line 1: the header must name the columns file and asset");
          }
          continue;
        }
        String where = table + " line " + row.getStartingLineNumber() + ": ";
        if (cells.size() <= Math.max(file, asset)
            || cells.get(file).isBlank()
            || cells.get(asset).isBlank()) {
          problems.add(where + "file or asset is missing; give both");
          continue;
        }
        add(folder, cells.get(file).strip(), cells.get(asset).strip(), where, assets, problems);
      }
    } catch (CsvParseException e) {
      throw new InputProblem(table + ": is not CSV: " + e.getMessage());
    } catch (UncheckedIOException e) {
      throw InputProblem.of(new IOException(e.getMessage(), e), table);
    } catch (IOException e) {
      throw InputProblem.of(e, table);
    }
    if (!problems.isEmpty()) {
      throw new InputProblem(String.join("\n", problems));
    }
    return assets;
  }

  private static void add(
      Path folder,
      String file,
      String asset,
      String where,
      Map<Path, Path> assets,
      List<String> problems) {
    try {
      Path trace = folder.resolve(file).normalize();
      Path chosen = folder.resolve(asset).normalize();
      if (!Files.exists(chosen)) {
        problems.add(where + asset + ": there is no such asset file or folder; check the path");
      } else if (assets.put(trace, chosen) != null) {
        problems.add(where + file + " is listed twice; keep one line");
      }
    } catch (InvalidPathException e) {
      problems.add(where + "is not a path: " + e.getReason());
    }
  }
}
