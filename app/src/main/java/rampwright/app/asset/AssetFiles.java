package rampwright.app.asset;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlSection;
import rampwright.app.envelope.Envelope;

/** Reads and writes {@code asset.toml}. */
public final class AssetFiles {
  private AssetFiles() {}

  /**
   * The asset of a file.
   *
   * @throws TomlProblemsException with every problem of the file: unknown keys, missing keys, wrong
   *     types, values out of range, parts that contradict each other
   */
  public static AssetFile read(Path path) throws IOException, TomlProblemsException {
    return read(path, TomlFile.read(path));
  }

  /** The asset of a text; {@code path} stands for the file in messages. */
  public static AssetFile parse(Path path, String text) throws TomlProblemsException {
    return read(path, TomlFile.parse(path.toString(), text));
  }

  private static AssetFile read(Path path, TomlFile file) throws TomlProblemsException {
    TomlSection root = file.root();
    TomlSection head = root.requiredSection("asset", "id and name");
    String id = "-";
    String name = null;
    String site = null;
    String zone = null;
    if (head != null) {
      id = head.requiredText("id", "a short name of the asset");
      name = head.text("name");
      site = head.text("site");
      zone = zone(head);
      head.finish();
    }
    TomlSection plate = root.requiredSection("motor", "the motor's nameplate");
    Motor motor = plate == null ? null : AssetSections.motor(plate);
    Starter starter = AssetSections.optional(root.section("starter"), AssetSections::starter);
    Load load = AssetSections.optional(root.section("load"), AssetSections::load);
    Supply supply = AssetSections.optional(root.section("supply"), AssetSections::supply);
    Pipe pipe = AssetSections.optional(root.section("pipe"), AssetSections::pipe);
    TomlSection target = root.section("envelope");
    Envelope envelope = target == null ? Envelope.NONE : EnvelopeSection.read(target);
    root.finish();
    List<String> warnings =
        motor == null || plate == null
            ? List.of()
            : PlateChecks.check(plate, motor, starter, supply, load);
    file.finish();
    return new AssetFile(
        path, asset(id, name, site, zone, motor, starter, load, supply, pipe, envelope), warnings);
  }

  private static @Nullable String zone(TomlSection head) {
    String zone = head.text("zone");
    try {
      return zone == null ? null : ZoneId.of(zone.strip()).getId();
    } catch (DateTimeException unknown) {
      head.problem(
          "zone",
          "zone = \""
              + zone
              + "\" is no time zone; write one such as \"UTC\", \"+05:45\" or a name of"
              + " the zone tables");
      return null;
    }
  }

  private static Asset asset(
      String id,
      @Nullable String name,
      @Nullable String site,
      @Nullable String zone,
      @Nullable Motor motor,
      @Nullable Starter starter,
      @Nullable Load load,
      @Nullable Supply supply,
      @Nullable Pipe pipe,
      Envelope envelope) {
    if (motor == null) {
      throw new IllegalStateException("a file without [motor] was not refused");
    }
    return new Asset(
        id, name == null ? id : name, site, zone, motor, starter, load, supply, pipe, envelope);
  }

  /** Writes an asset, whole or not at all. Comments of an older file are not kept. */
  public static void write(Path path, Asset asset) throws IOException {
    AtomicFile.write(path, AssetText.of(asset).getBytes(StandardCharsets.UTF_8));
  }
}
