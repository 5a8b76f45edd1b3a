package rampwright.app.cli;

import java.util.Arrays;
import java.util.stream.Collectors;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import rampwright.acquisition.record.TriggerKind;

/** What begins a trial, by its word. */
final class TriggerConverter implements ITypeConverter<TriggerKind> {
  @Override
  public TriggerKind convert(String value) {
    for (TriggerKind kind : TriggerKind.values()) {
      if (kind.key().equals(value)) {
        return kind;
      }
    }
    throw new TypeConversionException(
        "\""
            + value
            + "\" begins nothing; write "
            + Arrays.stream(TriggerKind.values())
                .map(TriggerKind::key)
                .collect(Collectors.joining(", ")));
  }
}
