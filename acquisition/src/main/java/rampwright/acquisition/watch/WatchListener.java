package rampwright.acquisition.watch;

import rampwright.acquisition.record.RecordedTrial;

/** Whoever makes something of what a watch records; called from one thread. */
public interface WatchListener {
  /**
   * A trial is on disk.
   *
   * @return a line about it for the log; empty for none
   */
  String recorded(Station station, RecordedTrial trial);

  /** How it stands, every few seconds. */
  void status(WatchStatus status);
}
