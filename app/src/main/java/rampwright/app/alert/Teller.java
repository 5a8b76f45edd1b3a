package rampwright.app.alert;

/** Somewhere alerts are told. */
public interface Teller {
  /** Name in the logbook; holds no address, since addresses hold secrets. */
  String id();

  /**
   * Tells one alert, or that it is cleared.
   *
   * @param line one line of JSON
   * @throws TellException where it could not be told; it is tried again at the next run
   */
  void tell(String line) throws TellException, InterruptedException;
}
