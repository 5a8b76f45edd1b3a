package rampwright.acquisition.toml;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word somebody most likely meant. */
public final class NearestWord {
  private static final int LONGEST_COMPARED = 80;

  private NearestWord() {}

  /**
   * The known word nearest to a written one by edits (insert, delete, replace, swap neighbours),
   * case aside; empty when none is within a third of the word's length.
   */
  public static Optional<String> of(String written, Collection<String> known) {
    if (written.length() > LONGEST_COMPARED) {
      return Optional.empty();
    }
    String best = null;
    int bestEdits = Integer.MAX_VALUE;
    String low = written.toLowerCase(Locale.ROOT);
    for (String word : known) {
      String lowWord = word.toLowerCase(Locale.ROOT);
      // A unit left out or one too many is the commonest slip, and costs many letters.
      boolean prefix =
          low.length() >= 4 && (lowWord.startsWith(low + "_") || low.startsWith(lowWord + "_"));
      int edits = prefix ? 1 : edits(low, lowWord);
      if (edits < bestEdits) {
        bestEdits = edits;
        best = word;
      }
    }
    int allowed = Math.max(2, written.length() / 3);
    return best == null || bestEdits > allowed ? Optional.empty() : Optional.of(best);
  }

  private static int edits(String a, String b) {
    int[][] cost = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i + j;
          continue;
        }
        int replace = cost[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        int best = Math.min(replace, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          best = Math.min(best, cost[i - 2][j - 2] + 1);
        }
        cost[i][j] = best;
      }
    }
    return cost[a.length()][b.length()];
  }
}
