package rampwright.app.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import rampwright.acquisition.record.EndKind;

/** What ends a trial, by its word. */
final class EndConverter implements ITypeConverter<EndKind> {
  @Override
  public EndKind convert(String value) {
    for (EndKind kind : EndKind.values()) {
      if (kind.key().equals(value)) {
        return kind;
      }
    }
    throw new TypeConversionException("\"" + value + "\" ends nothing; write stopped or settled");
  }
}
