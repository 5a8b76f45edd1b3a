package rampwright.app.cli;

import java.util.Arrays;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;
import rampwright.app.json.ResultJson;
import rampwright.app.usecase.DeviceProblem;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** The one place where what went wrong becomes a message and an exit code. */
final class FailureHandler implements IExecutionExceptionHandler, IParameterExceptionHandler {
  private final Screen screen;

  FailureHandler(Screen screen) {
    this.screen = screen;
  }

  @Override
  public int handleParseException(ParameterException e, String[] args) {
    CommandLine command = e.getCommandLine();
    StringBuilder text = new StringBuilder(String.valueOf(e.getMessage()));
    if (e instanceof UnmatchedArgumentException unmatched) {
      List<String> suggestions = unmatched.getSuggestions();
      if (!suggestions.isEmpty()) {
        text.append("; did you mean ").append(String.join(", ", suggestions)).append('?');
      }
    }
    boolean json = Arrays.asList(args).contains("--json");
    return tell(
        text + "\nsee: " + command.getCommandSpec().qualifiedName() + " --help",
        ExitCode.USAGE,
        json);
  }

  @Override
  public int handleExecutionException(Exception e, CommandLine command, ParseResult parsed) {
    boolean json = command.getCommand() instanceof Command ours && ours.isJson();
    if (e instanceof UsageProblem) {
      return tell(String.valueOf(e.getMessage()), ExitCode.USAGE, json);
    }
    if (e instanceof InputProblem) {
      return tell(String.valueOf(e.getMessage()), ExitCode.DATA, json);
    }
    if (e instanceof DeviceProblem) {
      return tell(String.valueOf(e.getMessage()), ExitCode.DEVICE, json);
    }
    if (e instanceof InterruptedException) {
      Thread.currentThread().interrupt();
      return tell("cancelled; what was written is whole", ExitCode.UNEXPECTED, json);
    }
    return tell(defect(e), ExitCode.UNEXPECTED, json);
  }

  /** What is told of an error that no command can go on from. */
  int handleError(Error e) {
    if (e instanceof OutOfMemoryError) {
      return tell(
          "there is not enough memory for this; start java with a larger -Xmx, for example"
              + " java -Xmx4g -jar rampwright.jar",
          ExitCode.DATA,
          false);
    }
    return tell(defect(e), ExitCode.UNEXPECTED, false);
  }

  private static String defect(Throwable e) {
    StackTraceElement[] trace = e.getStackTrace();
    return "unexpected: this is a defect of the program, not of your data: "
        + e
        + (trace.length == 0 ? "" : " at " + trace[0]);
  }

  private int tell(String text, int exit, boolean json) {
    if (json) {
      screen.raw(ResultJson.error(text));
    }
    screen.say("rampwright: " + text);
    screen.flush();
    return exit;
  }
}
