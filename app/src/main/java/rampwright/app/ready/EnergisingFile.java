package rampwright.app.ready;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlText;

/** Reads and writes {@code before-energising.toml}. */
public final class EnergisingFile {
  /** Its name in an asset folder. */
  public static final String NAME = "before-energising.toml";

  private static final NumberKey CHECK =
      new NumberKey("check", "", 1, 999, "number of the check", "");

  private EnergisingFile() {}

  /**
   * The list of a folder; nothing ticked when it has none yet.
   *
   * @throws TomlProblemsException with every problem of the file
   */
  public static EnergisingList read(Path assetFolder) throws IOException, TomlProblemsException {
    Path path = assetFolder.resolve(NAME);
    if (!Files.exists(path)) {
      return EnergisingList.EMPTY;
    }
    TomlFile file = TomlFile.read(path);
    List<EnergisingList.Tick> ticks =
        file.root()
            .each(
                "tick",
                one ->
                    new EnergisingList.Tick(
                        (int) one.requiredNumber(CHECK),
                        one.requiredText("text", "what was checked"),
                        one.requiredText("by", "who ticked it"),
                        one.requiredInstant("at", "when it was ticked"),
                        one.text("note"),
                        one.flag("taken_back", false)));
    file.root().finish();
    file.finish();
    return new EnergisingList(ticks);
  }

  /** Writes the list, whole or not at all. */
  public static void write(Path assetFolder, EnergisingList list) throws IOException {
    TomlText out = new TomlText();
    out.comment("Checks before energising, as they were ticked. Nothing is ever taken out: a tick");
    out.comment("taken back stands here too. Local codes and the makers' instructions come first.");
    for (EnergisingList.Tick tick : list.ticks()) {
      out.entry("tick").put("check", Double.valueOf(tick.number())).put("text", tick.text());
      out.put("by", tick.by()).put("at", tick.at()).put("note", tick.note());
      if (tick.taken()) {
        out.put("taken_back", Boolean.TRUE);
      }
    }
    AtomicFile.write(assetFolder.resolve(NAME), out.toString().getBytes(StandardCharsets.UTF_8));
  }
}
