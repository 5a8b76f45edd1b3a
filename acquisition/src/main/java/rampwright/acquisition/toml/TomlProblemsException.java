package rampwright.acquisition.toml;

import java.util.List;
import java.util.stream.Collectors;

/** A file that cannot be used, with everything that is wrong in it. */
public final class TomlProblemsException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  /** Problems in the order of the file; at least one. */
  public TomlProblemsException(List<Problem> problems) {
    super(problems.stream().map(Problem::describe).collect(Collectors.joining("\n")));
    this.problems = List.copyOf(problems);
  }

  /** What is wrong, in the order of the file. */
  public List<Problem> problems() {
    return problems;
  }
}
