package rampwright.app;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import rampwright.app.asset.AssetFolders;
import rampwright.app.usecase.SampleSource;

/** Sample asset folders that lie in the program's own jar (or class folder). */
final class BundledSamples implements SampleSource {
  private final String resource;

  /** Samples under a resource folder; none when it is not there. */
  BundledSamples(String resource) {
    this.resource = resource;
  }

  @Override
  public int copyInto(Path folder) throws IOException {
    URL place = BundledSamples.class.getResource(resource);
    if (place == null) {
      return 0;
    }
    try {
      URI uri = place.toURI();
      if (!"jar".equals(uri.getScheme())) {
        return copy(Path.of(uri), folder);
      }
      try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
        return copy(jar.getPath(resource), folder);
      }
    } catch (URISyntaxException e) {
      throw new IOException("the program lies at a place that cannot be read: " + place, e);
    }
  }

  private static int copy(Path from, Path to) throws IOException {
    int copied = 0;
    List<Path> assets;
    try (Stream<Path> entries = Files.list(from)) {
      assets = entries.filter(AssetFolders::isAssetFolder).sorted().toList();
    }
    for (Path asset : assets) {
      List<Path> parts;
      try (Stream<Path> walk = Files.walk(asset)) {
        parts = walk.toList();
      }
      for (Path part : parts) {
        Path target = to.resolve(from.relativize(part).toString());
        if (Files.isDirectory(part)) {
          Files.createDirectories(target);
        } else {
          Files.copy(part, target, StandardCopyOption.REPLACE_EXISTING);
        }
      }
      copied++;
    }
    return copied;
  }
}
