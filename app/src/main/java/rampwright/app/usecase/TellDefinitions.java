package rampwright.app.usecase;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Says by which definitions the starts of an asset were taken, where not all by the same. */
public final class TellDefinitions {
  private final LogbookUse logbooks;

  public TellDefinitions(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /** A line for each asset whose starts in force were taken by several versions. */
  public List<String> run(List<String> assets, @Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    return logbooks.run(
        logbook,
        book -> {
          List<String> lines = new ArrayList<>();
          for (String asset : assets) {
            Map<String, Integer> versions = book.definitions(asset);
            if (versions.size() > 1) {
              lines.add(
                  asset
                      + ": of each start its newest version counts, by definitions "
                      + versions.entrySet().stream()
                          .map(v -> v.getKey() + " (" + v.getValue() + " starts)")
                          .collect(Collectors.joining(", "))
                      + "; rampwright logbook reanalyze "
                      + asset
                      + " takes them all by the present ones");
            }
          }
          return lines;
        });
  }
}
