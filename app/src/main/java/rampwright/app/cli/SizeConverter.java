package rampwright.app.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import rampwright.app.usecase.ChartSize;

/** A picture's size, {@code 1600x900}. */
final class SizeConverter implements ITypeConverter<ChartSize> {
  @Override
  public ChartSize convert(String text) {
    if (!text.matches("\\d{1,5}x\\d{1,5}")) {
      throw new TypeConversionException(
          "'" + text + "' is not a size; write width x height in pixels, for example 1600x900");
    }
    int x = text.indexOf('x');
    try {
      return new ChartSize(
          Integer.parseInt(text.substring(0, x)), Integer.parseInt(text.substring(x + 1)));
    } catch (IllegalArgumentException e) {
      throw new TypeConversionException(String.valueOf(e.getMessage()));
    }
  }
}
