package rampwright.app.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import rampwright.app.usecase.TraceFormat;

/** The word for a trace format. */
final class FormatConverter implements ITypeConverter<TraceFormat> {
  @Override
  public TraceFormat convert(String word) {
    return TraceFormat.ofKey(word)
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "'"
                        + word
                        + "' is not a format; write "
                        + String.join(", ", TraceFormat.keys())));
  }
}
