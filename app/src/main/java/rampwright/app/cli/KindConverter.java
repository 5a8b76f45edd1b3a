package rampwright.app.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import rampwright.analysis.trace.TraceKind;

/** The word for a trace's kind. */
final class KindConverter implements ITypeConverter<TraceKind> {
  @Override
  public TraceKind convert(String word) {
    for (TraceKind kind : TraceKind.values()) {
      if (kind.key().equals(word)) {
        return kind;
      }
    }
    throw new TypeConversionException("'" + word + "' is not a kind; write waveform or rms");
  }
}
