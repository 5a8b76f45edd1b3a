package rampwright.app.alert;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Posts alerts to a configured address, a few times with growing delay. https, or http on this
 * machine, unless plain http is asked for; redirects are not followed, so that neither alert nor
 * token goes anywhere else. Messages name the host alone.
 */
public final class Webhook implements Teller {
  private static final int TRIES = 4;
  private static final Duration FIRST_DELAY = Duration.ofSeconds(1);
  private static final int TOO_MANY = 429;
  private static final int REQUEST_TIMEOUT = 408;
  private static final Set<String> THIS_MACHINE = Set.of("localhost", "127.0.0.1", "[::1]", "::1");

  /** Waits; a test does not. */
  public interface Pause {
    void of(Duration time) throws InterruptedException;
  }

  private final URI address;
  private final @Nullable String token;
  private final Duration timeout;
  private final Pause pause;

  private Webhook(URI address, @Nullable String token, Duration timeout, Pause pause) {
    this.address = address;
    this.token = token;
    this.timeout = timeout;
    this.pause = pause;
  }

  /**
   * To an address.
   *
   * @param token sent as a bearer token; null or blank for none
   * @param plainHttp whether http to another machine was asked for
   * @param timeout of connecting, and of each try as a whole
   * @throws TellException where the address is none that is allowed
   */
  public static Webhook to(
      String address, @Nullable String token, boolean plainHttp, Duration timeout, Pause pause)
      throws TellException {
    URI uri;
    try {
      uri = new URI(address.strip());
    } catch (URISyntaxException e) {
      // the message would repeat the address
      throw new TellException(
          "the webhook's address is no URL (character " + e.getIndex() + "); write https://...");
    }
    String scheme = uri.getScheme() == null ? "" : uri.getScheme().toLowerCase(Locale.ROOT);
    String host = uri.getHost();
    if (host == null || !(scheme.equals("https") || scheme.equals("http"))) {
      throw new TellException("the webhook's address is no https:// address with a host");
    }
    if (uri.getRawUserInfo() != null) {
      throw new TellException(
          "the webhook's address holds a name or password; leave it out and set"
              + " RAMPWRIGHT_WEBHOOK_TOKEN");
    }
    if (scheme.equals("http") && !plainHttp && !THIS_MACHINE.contains(host)) {
      throw new TellException(
          "the webhook at "
              + host
              + " is plain http, which anybody on the way can read and change; use https, or allow"
              + " it with --plain-http");
    }
    return new Webhook(uri, token == null || token.isBlank() ? null : token, timeout, pause);
  }

  @Override
  public String id() {
    return "webhook";
  }

  @Override
  public void tell(String line) throws TellException, InterruptedException {
    HttpClient client =
        HttpClient.newBuilder()
            .connectTimeout(timeout)
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();
    String trouble = "";
    Duration delay = FIRST_DELAY;
    for (int attempt = 1; attempt <= TRIES; attempt++) {
      int status = 0;
      try {
        status = client.send(request(line), HttpResponse.BodyHandlers.discarding()).statusCode();
        trouble = "it answered " + status;
      } catch (IOException e) {
        trouble = said(e);
      } catch (IllegalArgumentException e) {
        throw new TellException(failed("the address or the token cannot be sent", attempt));
      }
      if (status >= 200 && status < 300) {
        return;
      }
      boolean mayPass =
          status == 0 || status >= 500 || status == TOO_MANY || status == REQUEST_TIMEOUT;
      if (!mayPass) {
        throw new TellException(failed(trouble, attempt));
      }
      if (attempt < TRIES) {
        pause.of(delay);
        delay = delay.multipliedBy(2);
      }
    }
    throw new TellException(failed(trouble, TRIES));
  }

  private HttpRequest request(String line) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(address)
            .timeout(timeout)
            .header("Content-Type", "application/json; charset=utf-8")
            .POST(HttpRequest.BodyPublishers.ofString(line, StandardCharsets.UTF_8));
    String secret = token;
    if (secret != null) {
      request.header("Authorization", "Bearer " + secret);
    }
    return request.build();
  }

  /** The kind of trouble alone: the text of the exception may hold the address. */
  private static String said(IOException e) {
    return switch (e.getClass().getSimpleName()) {
      case "HttpTimeoutException", "HttpConnectTimeoutException" -> "it did not answer in time";
      case "ConnectException" -> "it refused the connection or cannot be found";
      case "SSLHandshakeException" -> "its certificate is not trusted here";
      default -> "the connection broke (" + e.getClass().getSimpleName() + ")";
    };
  }

  private String failed(String trouble, int attempts) {
    return "webhook at "
        + address.getHost()
        + ": "
        + trouble
        + (attempts > 1 ? ", " + attempts + " times" : "")
        + "; the alert stays untold and is tried again at the next run";
  }
}
