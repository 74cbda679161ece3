package org.scarpway.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * A real Chromium without a window, driven by the Chrome DevTools Protocol: pages, real input
 * events, printing, and every request that a page makes.
 */
public final class Browser implements AutoCloseable {
  public static final Path CHROMIUM =
      Path.of(System.getProperty("scarpway.chromium", "/usr/bin/chromium"));

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final long PATIENCE_S = 40;

  private final Process process;
  private final WebSocket socket;
  private final BlockingQueue<JsonNode> received = new LinkedBlockingQueue<>();

  /** Addresses of all requests of the pages so far, those of data within a page left out. */
  final List<String> requests = new ArrayList<>();

  private int last;

  public Browser(Path folder, int width, int height) throws IOException, InterruptedException {
    if (!Files.isExecutable(CHROMIUM)) {
      throw new AssertionError(
          "no browser at " + CHROMIUM + ": install chromium or set -Dscarpway.chromium");
    }
    Path profile = Files.createTempDirectory(folder, "profile");
    process =
        new ProcessBuilder(
                CHROMIUM.toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--hide-scrollbars",
                "--remote-debugging-port=0",
                "--window-size=" + width + "," + height,
                "--user-data-dir=" + profile,
                "about:blank")
            .redirectOutput(Files.createTempFile(folder, "out", ".txt").toFile())
            .redirectError(Files.createTempFile(folder, "err", ".txt").toFile())
            .start();
    int port = port(profile.resolve("DevToolsActivePort"));
    HttpClient client = HttpClient.newHttpClient();
    JsonNode tabs =
        JSON.readTree(
            client
                .send(
                    HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/json"))
                        .build(),
                    HttpResponse.BodyHandlers.ofString())
                .body());
    String page = "";
    for (JsonNode tab : tabs) {
      page =
          tab.path("type").asText().equals("page")
              ? tab.path("webSocketDebuggerUrl").asText()
              : page;
    }
    socket = client.newWebSocketBuilder().buildAsync(URI.create(page), new Listener()).join();
    call("Page.enable");
    call("Runtime.enable");
    call("Network.enable");
    size(width, height);
  }

  private static int port(Path file) throws IOException, InterruptedException {
    for (int i = 0; i < PATIENCE_S * 20; i++) {
      if (Files.exists(file)) {
        List<String> lines = Files.readAllLines(file);
        if (lines.size() >= 2) {
          return Integer.parseInt(lines.get(0));
        }
      }
      Thread.sleep(50);
    }
    throw new AssertionError("the browser did not start in " + PATIENCE_S + " s");
  }

  private final class Listener implements WebSocket.Listener {
    private final StringBuilder text = new StringBuilder();

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence part, boolean complete) {
      text.append(part);
      if (complete) {
        try {
          received.add(JSON.readTree(text.toString()));
        } catch (IOException e) {
          throw new AssertionError(e);
        }
        text.setLength(0);
      }
      from.request(1);
      return null;
    }
  }

  /**
   * Calls a method of the protocol.
   *
   * @param given names and values of its parameters in turn
   */
  JsonNode call(String method, Object... given) {
    ObjectNode message = JSON.createObjectNode();
    message.put("id", ++last).put("method", method);
    ObjectNode params = message.putObject("params");
    for (int i = 0; i < given.length; i += 2) {
      params.set((String) given[i], JSON.valueToTree(given[i + 1]));
    }
    socket.sendText(message.toString(), true).join();
    try {
      while (true) {
        JsonNode m = received.poll(PATIENCE_S, TimeUnit.SECONDS);
        if (m == null) {
          throw new AssertionError(method + " did not answer in " + PATIENCE_S + " s");
        }
        if (m.path("method").asText().equals("Network.requestWillBeSent")) {
          String url = m.path("params").path("request").path("url").asText();
          if (!url.startsWith("data:")) {
            requests.add(url);
          }
        }
        if (m.path("id").asInt() == last) {
          if (m.has("error")) {
            throw new AssertionError(method + ": " + m.path("error"));
          }
          return m.path("result");
        }
      }
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  public void size(int width, int height) {
    call(
        "Emulation.setDeviceMetricsOverride",
        "width",
        width,
        "height",
        height,
        "deviceScaleFactor",
        1,
        "mobile",
        false);
  }

  public void open(String address) {
    call("Page.navigate", "url", address);
    until("document.readyState === 'complete' && location.href === '" + address + "'");
  }

  /** Waits until an expression is true. */
  void until(String expression) {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_S);
    while (!eval(expression).asBoolean()) {
      if (System.nanoTime() > end) {
        throw new AssertionError(expression + " did not become true in " + PATIENCE_S + " s");
      }
      try {
        Thread.sleep(25);
      } catch (InterruptedException e) {
        throw new AssertionError(e);
      }
    }
  }

  /** Value of an expression, awaited if it is a promise. */
  JsonNode eval(String expression) {
    JsonNode r =
        call(
            "Runtime.evaluate",
            "expression",
            expression,
            "awaitPromise",
            true,
            "returnByValue",
            true);
    if (r.has("exceptionDetails")) {
      throw new AssertionError(expression + ": " + r.path("exceptionDetails"));
    }
    return r.path("result").path("value");
  }

  void mouse(String type, double x, double y, int buttons) {
    call(
        "Input.dispatchMouseEvent",
        "type",
        type,
        "x",
        x,
        "y",
        y,
        "button",
        "left",
        "buttons",
        buttons,
        "clickCount",
        1);
  }

  void click(double x, double y) {
    mouse("mousePressed", x, y, 1);
    mouse("mouseReleased", x, y, 0);
  }

  void drag(double x, double y, double dx, double dy) {
    mouse("mousePressed", x, y, 1);
    for (int i = 1; i <= 8; i++) {
      mouse("mouseMoved", x + dx * i / 8, y + dy * i / 8, 1);
    }
    mouse("mouseReleased", x + dx, y + dy, 0);
  }

  void wheel(double x, double y, double deltaY) {
    call(
        "Input.dispatchMouseEvent",
        "type",
        "mouseWheel",
        "x",
        x,
        "y",
        y,
        "deltaX",
        0,
        "deltaY",
        deltaY);
  }

  /**
   * Fingers on the screen.
   *
   * @param type touchStart, touchMove or touchEnd
   * @param points x and y of each finger in turn
   */
  void touch(String type, double... points) {
    List<ObjectNode> fingers = new ArrayList<>();
    for (int i = 0; i < points.length; i += 2) {
      ObjectNode f = JSON.createObjectNode();
      fingers.add(f.put("x", points[i]).put("y", points[i + 1]).put("id", i / 2));
    }
    call("Input.dispatchTouchEvent", "type", type, "touchPoints", fingers);
  }

  /**
   * Presses a key.
   *
   * @param key its name in the Unified Events specification (W3C UI Events KeyboardEvent key)
   * @param modifiers 8 for Shift
   */
  void key(String key, int modifiers) {
    int code =
        switch (key) {
          case "Tab" -> 9;
          case "Enter" -> 13;
          case "Escape" -> 27;
          case "ArrowLeft" -> 37;
          case "ArrowUp" -> 38;
          case "ArrowRight" -> 39;
          case "ArrowDown" -> 40;
          default -> key.toUpperCase(java.util.Locale.ROOT).charAt(0);
        };
    call(
        "Input.dispatchKeyEvent",
        "type",
        "rawKeyDown",
        "key",
        key,
        "modifiers",
        modifiers,
        "windowsVirtualKeyCode",
        code);
    call(
        "Input.dispatchKeyEvent",
        "type",
        "keyUp",
        "key",
        key,
        "modifiers",
        modifiers,
        "windowsVirtualKeyCode",
        code);
  }

  byte[] screenshot() {
    return Base64.getDecoder()
        .decode(call("Page.captureScreenshot", "format", "png").path("data").asText());
  }

  byte[] pdf() {
    return Base64.getDecoder()
        .decode(
            call("Page.printToPDF", "preferCSSPageSize", true, "printBackground", true)
                .path("data")
                .asText());
  }

  @Override
  public void close() {
    socket.abort();
    // Its children still write into the profile for a moment after it has ended.
    List<ProcessHandle> children = process.descendants().toList();
    process.destroy();
    try {
      if (!process.waitFor(20, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        process.waitFor();
      }
      for (ProcessHandle child : children) {
        child.destroyForcibly();
        child.onExit().completeOnTimeout(child, 5, TimeUnit.SECONDS).join();
      }
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }
}
