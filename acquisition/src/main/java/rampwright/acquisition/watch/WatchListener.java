package rampwright.acquisition.watch;

import java.nio.file.Path;

/** Whoever makes something of what a watch records; called from one thread. */
public interface WatchListener {
  /**
   * A trial is on disk: just recorded, or left by a watch that was cut short.
   *
   * @param trial its folder
   * @return a line about it for the log; empty for none
   */
  String recorded(Station station, Path trial);

  /** How it stands, every few seconds. */
  void status(WatchStatus status);
}
