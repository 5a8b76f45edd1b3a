package rampwright.app.logbook;

import java.util.List;

/**
 * What came of entering starts from files.
 *
 * @param added entries made, corrections included
 * @param known entries that were there already
 * @param corrected entries that replace an older one
 * @param rejected what could not be entered, one line each
 * @param remarks what a person should know
 */
public record Imported(
    int added, int known, int corrected, List<String> rejected, List<String> remarks) {
  public Imported {
    rejected = List.copyOf(rejected);
    remarks = List.copyOf(remarks);
  }
}
