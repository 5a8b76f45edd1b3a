package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.figure.ImpossibleCorrectionException;

/** A file, its data or its storage is at fault: what is wrong, where, what to do. */
public final class InputProblem extends Exception {
  private static final long serialVersionUID = 1L;

  public InputProblem(String message) {
    super(message);
  }

  private InputProblem(String message, Throwable cause) {
    super(message, cause);
  }

  /** A trace file's problem. */
  public static InputProblem of(TraceFileException e) {
    return new InputProblem(text(e), e);
  }

  /**
   * A correction that cannot be so in its trace.
   *
   * @param settings the file it stands in
   */
  public static InputProblem of(ImpossibleCorrectionException e, Path settings) {
    return new InputProblem(settings + ": [trial] " + text(e), e);
  }

  /** Problems of a TOML file. */
  public static InputProblem of(TomlProblemsException e) {
    return new InputProblem(text(e), e);
  }

  /**
   * A file that could not be read or written.
   *
   * @param path the file that was wanted
   */
  public static InputProblem of(IOException e, Path path) {
    if (e instanceof NoSuchFileException missing) {
      return new InputProblem(
          missing.getFile() + ": there is no such file or folder; check the path", e);
    }
    if (e instanceof AccessDeniedException denied) {
      return new InputProblem(
          denied.getFile() + ": access is denied; check who may read and write it", e);
    }
    if (e instanceof NotDirectoryException) {
      return new InputProblem(path + ": is a file, a folder was expected", e);
    }
    if (e instanceof FileSystemException fault) {
      String reason = fault.getReason() == null ? "the system refuses it" : fault.getReason();
      return new InputProblem(fault.getFile() + ": " + reason, e);
    }
    return new InputProblem(path + ": cannot be read or written: " + text(e), e);
  }

  private static String text(Exception e) {
    String message = e.getMessage();
    return message == null ? e.getClass().getSimpleName() : message;
  }
}
