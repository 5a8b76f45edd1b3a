package rampwright.app.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A moment as typed, or as screens show it, with a blank between date and time. */
final class InstantConverter implements ITypeConverter<Instant> {
  @Override
  public Instant convert(String text) {
    try {
      return OffsetDateTime.parse(text.strip().replaceFirst("(?<=\\d) (?=\\d)", "T")).toInstant();
    } catch (DateTimeException e) {
      throw new TypeConversionException(
          "\""
              + text
              + "\" is not a moment; write date, time and zone, for example 2026-03-14T09:12:05Z or"
              + " 2026-03-14T10:12:05+01:00");
    }
  }
}
