package rampwright.app.logbook;

import java.util.ArrayList;
import java.util.List;

/** Names and hashes of an entry's files, one a line, parted by a tab. */
final class FileList {
  private FileList() {}

  /** One file. */
  record Line(String name, String sha256) {}

  static String of(List<LogFile> files) {
    StringBuilder text = new StringBuilder();
    for (LogFile file : files) {
      text.append(file.name().replaceAll("[\\t\\n\\x00]", "_"));
      text.append('\t').append(file.sha256()).append('\n');
    }
    return text.toString();
  }

  static List<Line> lines(String text) {
    List<Line> lines = new ArrayList<>();
    for (String line : text.split("\n", -1)) {
      int tab = line.indexOf('\t');
      if (tab > 0) {
        lines.add(new Line(line.substring(0, tab), line.substring(tab + 1)));
      }
    }
    return lines;
  }
}
