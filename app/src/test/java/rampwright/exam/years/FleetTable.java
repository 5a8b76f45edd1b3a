package rampwright.exam.years;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import rampwright.app.trend.TrendQuestion;
import rampwright.exam.plant.AssetGenerator;

/** A fleet of simulated plants, one cause each, as a table of starts that can be imported. */
public final class FleetTable {
  private FleetTable() {}

  /** Arguments: {@code file assets seed}. */
  public static void main(String[] args) throws IOException {
    write(Path.of(args[0]), Integer.parseInt(args[1]), Long.parseLong(args[2]));
  }

  /** Writes the table; assets are called after their number and, for the reader, their cause. */
  public static void write(Path file, int assets, long seed) throws IOException {
    List<String> lines = new ArrayList<>();
    lines.add("asset,time,settings," + String.join(",", PlantYears.FIGURES));
    AssetGenerator generator = new AssetGenerator(seed);
    int made = 0;
    for (int a = 0; made < assets && a < 4 * assets; a++) {
      Cause cause = Cause.values()[a % Cause.values().length];
      Random chance = Watchers.chance(seed, 70, a);
      Optional<List<TrendQuestion>> years = PlantYears.of(generator.asset(a), cause, chance);
      if (years.isPresent()) {
        made++;
        rows(lines, String.format(Locale.ROOT, "M-%02d", made), years.get());
      }
    }
    Files.write(file, lines);
  }

  private static void rows(List<String> lines, String asset, List<TrendQuestion> years) {
    int n = years.get(0).starts().size();
    for (int i = 0; i < n; i++) {
      StringBuilder line = new StringBuilder(asset);
      line.append(',').append(years.get(0).starts().get(i).at());
      line.append(',').append(i < n / 8 ? "ramp 12 s" : "ramp 10 s");
      for (TrendQuestion figure : years) {
        line.append(String.format(Locale.ROOT, ",%.5g", figure.starts().get(i).value()));
      }
      lines.add(line.toString());
    }
  }
}
