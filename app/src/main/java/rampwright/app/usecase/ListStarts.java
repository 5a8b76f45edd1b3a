package rampwright.app.usecase;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.logbook.KeptEntry;

/** What a logbook holds of an asset: its newest starts, or everything ever said of them. */
public final class ListStarts {
  private final LogbookUse logbooks;

  public ListStarts(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /**
   * The newest starts, the newest first.
   *
   * @param most how many starts
   * @param history with the entries that were replaced, each after the one that replaced it
   * @throws UsageProblem where the asset has no starts
   */
  public List<KeptEntry> run(String asset, int most, boolean history, @Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    if (most < 1) {
      throw new UsageProblem("--newest " + most + ": at least one start is needed");
    }
    return logbooks.run(
        logbook,
        book -> {
          List<KeptEntry> newest = book.newest(asset, most);
          if (newest.isEmpty()) {
            LogbookUse.demandKnown(asset, book.assets());
          }
          if (!history || newest.isEmpty()) {
            return newest;
          }
          Instant oldest = newest.get(newest.size() - 1).entry().at();
          return book.history(asset, oldest, newest.get(0).entry().at()).stream()
              .sorted(
                  Comparator.comparing((KeptEntry kept) -> kept.entry().at())
                      .thenComparing(KeptEntry::number)
                      .reversed())
              .toList();
        });
  }
}
