package rampwright.app.logbook;

import java.util.List;

/**
 * Where the figures of an entry come from.
 *
 * @param source in words
 * @param trial name of the trial's folder and number of the start in its trace; empty without one
 * @param toolVersion of the program that made the figures; empty where no program did
 * @param definitions version of the figures' definitions; empty where they are not known
 * @param traceSha256 of the trace, as its result carries it; empty without a trace
 * @param files the figures were taken from; empty when read for figures alone
 */
public record Origin(
    String source,
    String trial,
    String toolVersion,
    String definitions,
    String traceSha256,
    List<LogFile> files) {

  public Origin {
    source = Words.kept(source);
    trial = Words.kept(trial);
    toolVersion = Words.kept(toolVersion);
    definitions = Words.kept(definitions);
    traceSha256 = Words.kept(traceSha256);
    files = List.copyOf(files);
  }

  /** Figures that were handed over without a trace. */
  public static Origin withoutTrace(String source) {
    return new Origin(source, "", "", "", "", List.of());
  }

  /** Whether the figures were taken from a trace. */
  public boolean hasTrace() {
    return !traceSha256.isEmpty();
  }
}
