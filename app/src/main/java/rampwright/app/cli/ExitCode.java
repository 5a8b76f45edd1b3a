package rampwright.app.cli;

import rampwright.app.result.Batch;

/** The numbers a command ends with. */
public final class ExitCode {
  /** Done; and where an envelope was compared, met. */
  public static final int DONE = 0;

  /** A defect of the program. */
  public static final int UNEXPECTED = 1;

  /** What was typed cannot be done in that way. */
  public static final int USAGE = 2;

  /** An envelope was missed. */
  public static final int MISSED = 3;

  /** An envelope could not be assessed. */
  public static final int NOT_ASSESSABLE = 4;

  /** A device is at fault. */
  public static final int DEVICE = 5;

  /** A file, its data or its storage is at fault. */
  public static final int DATA = 6;

  /** The numbers with their meaning, for the help. */
  static final String[] HELP = {
    "0:done; where an envelope was compared: met",
    "1:unexpected: a defect of this program",
    "2:bad usage: the message says what to write instead",
    "3:envelope missed; report: not accepted; ready: a line says hold; trend --alerts: an alert stands unseen",
    "4:not assessable: a figure the envelope asks for could not be had; report: not yet judged",
    "5:device",
    "6:file, data or storage"
  };

  private ExitCode() {}

  /** The number for a run over trials. */
  static int of(Batch.Standing standing) {
    return switch (standing) {
      case DONE -> DONE;
      case MISSED -> MISSED;
      case NOT_ASSESSABLE -> NOT_ASSESSABLE;
      case FAILED -> DATA;
    };
  }
}
