package rampwright.app.cli;

import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/**
 * When a start began, as typed.
 *
 * @param at null for the word unknown
 */
record StartTime(@Nullable Instant at) {
  /** Reads it. */
  static final class Converter implements ITypeConverter<StartTime> {
    @Override
    public StartTime convert(String text) {
      if (text.strip().toLowerCase(Locale.ROOT).equals("unknown")) {
        return new StartTime(null);
      }
      try {
        return new StartTime(new InstantConverter().convert(text));
      } catch (TypeConversionException e) {
        throw new TypeConversionException(e.getMessage() + ", or unknown");
      }
    }
  }
}
