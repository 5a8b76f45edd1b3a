package rampwright.app.cli;

import java.util.Arrays;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import rampwright.acquisition.file.ComtradeEdition;

/** The year of an edition of COMTRADE. */
final class EditionConverter implements ITypeConverter<ComtradeEdition> {
  @Override
  public ComtradeEdition convert(String word) {
    return Arrays.stream(ComtradeEdition.values())
        .filter(edition -> edition.year().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "'" + word + "' is not an edition of COMTRADE; write 1991, 1999 or 2013"));
  }
}
