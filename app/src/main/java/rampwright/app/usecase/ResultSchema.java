package rampwright.app.usecase;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The JSON schema of results, as it comes with the program. */
public final class ResultSchema {
  /** Its place in the program's resources. */
  public static final String RESOURCE = "/rampwright/result.schema.json";

  /** The schema's text. */
  public String run() {
    try (InputStream in = ResultSchema.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException("the program was built without " + RESOURCE);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
