package rampwright.app.usecase;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import rampwright.app.asset.AssetFolders;
import rampwright.app.ready.EnergisingFile;
import rampwright.app.report.Seal;
import rampwright.app.report.SealedFile;

/**
 * The files a record rests on, with their sums: the sheet with its envelope, the list before
 * energising, settings and traces. What this program derives or keeps by itself is left out.
 */
final class SealFolder {
  private static final int BUFFER_BYTES = 1 << 16;

  private SealFolder() {}

  static Seal of(Path folder) throws IOException {
    List<SealedFile> files = new ArrayList<>();
    for (String name : List.of(AssetFolders.ASSET, EnergisingFile.NAME)) {
      Path file = folder.resolve(name);
      if (Files.isRegularFile(file)) {
        files.add(sealed(folder, file));
      }
    }
    evidence(folder, folder, files);
    Path trials = folder.resolve(AssetFolders.TRIALS);
    if (Files.isDirectory(trials)) {
      for (Path trial : entries(trials)) {
        if (Files.isDirectory(trial)) {
          evidence(folder, trial, files);
        }
      }
    }
    return new Seal(files);
  }

  private static void evidence(Path folder, Path trial, List<SealedFile> files) throws IOException {
    for (Path file : entries(trial)) {
      if (AssetFolders.isEvidence(file)) {
        files.add(sealed(folder, file));
      }
    }
  }

  private static List<Path> entries(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.sorted().toList();
    }
  }

  private static SealedFile sealed(Path folder, Path file) throws IOException {
    MessageDigest digest = Seal.digest();
    byte[] buffer = new byte[BUFFER_BYTES];
    try (InputStream in = Files.newInputStream(file)) {
      for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
        digest.update(buffer, 0, read);
      }
    }
    return new SealedFile(path(folder, file), HexFormat.of().formatHex(digest.digest()));
  }

  /** A file's path as it stands under a signature. */
  static String path(Path folder, Path file) {
    StringBuilder path = new StringBuilder();
    for (Path part : folder.relativize(file)) {
      path.append(path.length() == 0 ? "" : "/").append(plain(part.toString()));
    }
    return path.toString();
  }

  /** A name as a line of text may hold it. */
  private static String plain(String name) {
    StringBuilder plain = new StringBuilder();
    for (int i = 0; i < name.length(); i++) {
      char c = name.charAt(i);
      if (c < ' ' || c == 0x7f || c == '%') {
        plain.append(String.format(Locale.ROOT, "%%%02X", (int) c));
      } else {
        plain.append(c);
      }
    }
    return plain.toString();
  }
}
