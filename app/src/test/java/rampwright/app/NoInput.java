package rampwright.app;

import java.io.InputStream;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/** Keeps commands that listen to orders from reading the test runner's own input. */
final class NoInput implements BeforeAllCallback, AfterAllCallback {
  private InputStream input = InputStream.nullInputStream();

  @Override
  public void beforeAll(ExtensionContext context) {
    input = System.in;
    System.setIn(InputStream.nullInputStream());
  }

  @Override
  public void afterAll(ExtensionContext context) {
    System.setIn(input);
  }
}
