package rampwright.app.alert;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against a server of its own on the loopback. */
class WebhookTest {
  private static final String LINE = "{\"asset\": \"P-1\"}";
  private static final int SILENT = -1;

  private final Deque<Integer> answers = new ArrayDeque<>();
  private final List<String> bodies = Collections.synchronizedList(new ArrayList<>());
  private final List<String> tokens = Collections.synchronizedList(new ArrayList<>());
  private final List<Duration> pauses = new ArrayList<>();
  private final CountDownLatch end = new CountDownLatch(1);
  private final ExecutorService pool = Executors.newCachedThreadPool();
  private HttpServer server;

  @BeforeEach
  void serve() throws IOException {
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext("/", this::answer);
    server.setExecutor(pool);
    server.start();
  }

  @AfterEach
  void stop() {
    end.countDown();
    server.stop(0);
    pool.shutdownNow();
  }

  private void answer(HttpExchange exchange) throws IOException {
    try (exchange) {
      bodies.add(new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
      tokens.add(String.valueOf(exchange.getRequestHeaders().getFirst("Authorization")));
      int status = answers.isEmpty() ? 204 : answers.removeFirst();
      if (status == SILENT) {
        end.await(5, TimeUnit.SECONDS);
        return;
      }
      if (status == 302) {
        exchange.getResponseHeaders().add("Location", "/elsewhere");
      }
      exchange.sendResponseHeaders(status, -1);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private Webhook hook(String token) throws TellException {
    String address = "http://127.0.0.1:" + server.getAddress().getPort() + "/in?key=abc123";
    return Webhook.to(address, token, false, Duration.ofMillis(700), pauses::add);
  }

  @Test
  void postsTheLineOnceWithTheToken() throws Exception {
    hook("s3cret").tell(LINE);
    assertThat(bodies).containsExactly(LINE);
    assertThat(tokens).containsExactly("Bearer s3cret");
    assertThat(pauses).isEmpty();
  }

  @Test
  void triesAgainWithGrowingDelayWhileTheServerIsIll() throws Exception {
    answers.addAll(List.of(503, 429, 500));
    hook(null).tell(LINE);
    assertThat(bodies).hasSize(4);
    assertThat(pauses)
        .containsExactly(Duration.ofSeconds(1), Duration.ofSeconds(2), Duration.ofSeconds(4));
    assertThat(tokens).containsOnly("null");
  }

  @Test
  void givesUpAfterFourTriesAndSaysNoSecrets() throws Exception {
    answers.addAll(List.of(500, 500, 500, 500, 204));
    Webhook hook = hook("s3cret");
    assertThatThrownBy(() -> hook.tell(LINE))
        .isInstanceOf(TellException.class)
        .hasMessageContaining("127.0.0.1")
        .hasMessageContaining("500, 4 times")
        .hasMessageContaining("next run")
        .hasMessageNotContaining("abc123")
        .hasMessageNotContaining("s3cret");
    assertThat(bodies).hasSize(4);
  }

  @ParameterizedTest
  @ValueSource(ints = {400, 401, 404, 302})
  void asksNotAgainWhatWasRefusedAndFollowsNobody(int status) throws Exception {
    answers.add(status);
    Webhook hook = hook("s3cret");
    assertThatThrownBy(() -> hook.tell(LINE)).hasMessageContaining("answered " + status);
    assertThat(bodies).hasSize(1);
  }

  @Test
  void aServerThatDoesNotAnswerIsLeft() throws Exception {
    answers.addAll(List.of(SILENT));
    hook(null).tell(LINE);
    assertThat(pauses).containsExactly(Duration.ofSeconds(1));
  }

  @Test
  void nobodyThereIsSaid() throws Exception {
    Webhook hook = hook(null);
    server.stop(0);
    assertThatThrownBy(() -> hook.tell(LINE)).hasMessageContaining("refused the connection");
    assertThat(pauses).hasSize(3);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "http://plant.example/in",
        "ftp://127.0.0.1/",
        "file:///etc/passwd",
        "plant",
        "https://me:pw@plant.example/",
        "https://",
        "ht tp://x"
      })
  void otherAddressesAreRefused(String address) {
    assertThatThrownBy(() -> Webhook.to(address, null, false, Duration.ofSeconds(1), pauses::add))
        .isInstanceOf(TellException.class)
        .hasMessageNotContaining("pw")
        .hasMessageNotContaining("/in");
  }

  @Test
  void plainHttpElsewhereOnlyWhenAskedFor() throws Exception {
    assertThat(
            Webhook.to("http://plant.example/in", null, true, Duration.ofSeconds(1), pauses::add)
                .id())
        .isEqualTo("webhook");
  }
}
