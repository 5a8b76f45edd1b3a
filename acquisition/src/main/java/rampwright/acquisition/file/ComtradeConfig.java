package rampwright.acquisition.file;

import java.time.LocalDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a COMTRADE configuration says.
 *
 * @param station name of the place
 * @param device name or number of the recorder
 * @param edition edition of the standard
 * @param analogs analog channels in the order of the data
 * @param statuses status channels in the order of the data
 * @param lineFrequencyHz frequency of the supply; 0 when not told
 * @param rates sampling rates in order; empty when only the stamps tell
 * @param promisedSamples number of samples the configuration promises; 0 when it does not
 * @param firstSample date and time of the first sample; null when not told
 * @param trigger date and time of the trigger; null when not told
 * @param nanoseconds the stamps count nanoseconds, not microseconds
 * @param encoding how the data are written
 * @param stampFactor factor on every stamp (timemult)
 * @param utcOffsetMinutes what the dates are ahead of UTC, in minutes; null when not told
 */
public record ComtradeConfig(
    String station,
    String device,
    ComtradeEdition edition,
    List<ComtradeAnalog> analogs,
    List<ComtradeStatus> statuses,
    double lineFrequencyHz,
    List<ComtradeRate> rates,
    long promisedSamples,
    @Nullable LocalDateTime firstSample,
    @Nullable LocalDateTime trigger,
    boolean nanoseconds,
    ComtradeEncoding encoding,
    double stampFactor,
    @Nullable Integer utcOffsetMinutes) {
  public ComtradeConfig {
    analogs = List.copyOf(analogs);
    statuses = List.copyOf(statuses);
    rates = List.copyOf(rates);
  }

  /** Seconds that one count of a stamp stands for. */
  public double stampUnitS() {
    return stampFactor * (nanoseconds ? 1e-9 : 1e-6);
  }

  /** True when every stretch has a rate, so that stamps are not needed for the time axis. */
  public boolean hasRates() {
    return !rates.isEmpty() && rates.stream().allMatch(rate -> rate.rateHz() > 0);
  }
}
