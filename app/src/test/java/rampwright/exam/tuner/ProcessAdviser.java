package rampwright.exam.tuner;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import rampwright.exam.plant.PlantSettings;

/** The product as its users call it: {@code java -jar rampwright.jar advise FOLDER --json}. */
public final class ProcessAdviser implements Adviser {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final long LONGEST_S = 60;

  private final List<String> command;

  public ProcessAdviser(Path jar) {
    this.command =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-jar",
            jar.toString());
  }

  @Override
  public String name() {
    return "product";
  }

  @Override
  public Proposal next(Path folder, Told told) {
    List<String> line = new ArrayList<>(command);
    line.addAll(List.of("advise", folder.toString(), "--json"));
    return parse(run(line), told);
  }

  private static String run(List<String> line) {
    try {
      Path out = Files.createTempFile("advise", ".json");
      Path err = Files.createTempFile("advise", ".txt");
      try {
        Process process =
            new ProcessBuilder(line)
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        if (!process.waitFor(LONGEST_S, TimeUnit.SECONDS)) {
          process.destroyForcibly();
          throw new AdviserFailedException("no answer within " + LONGEST_S + " s");
        }
        int exit = process.exitValue();
        if (exit != 0 && exit != 3) {
          String said = Files.readString(err, StandardCharsets.UTF_8);
          throw new AdviserFailedException("exit " + exit + ": " + said.strip());
        }
        return Files.readString(out, StandardCharsets.UTF_8);
      } finally {
        Files.deleteIfExists(out);
        Files.deleteIfExists(err);
      }
    } catch (IOException e) {
      throw new AdviserFailedException("cannot run " + line, e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AdviserFailedException("interrupted", e);
    }
  }

  /** The answer in the product's JSON; settings it does not name stay as they were. */
  public static Proposal parse(String json, Told told) {
    try {
      JsonNode node = JSON.readTree(json);
      if (node == null || !node.hasNonNull("status")) {
        throw new AdviserFailedException("answer without status: " + json);
      }
      @SuppressWarnings("unchecked")
      Map<String, Object> settings =
          node.hasNonNull("settings")
              ? JSON.convertValue(node.get("settings"), Map.class)
              : Map.of();
      JsonNode chance = node.get("chance_all_met");
      return new Proposal(
          node.get("status").asText(),
          PlantSettings.of(settings, told.last().settings()),
          chance == null || chance.isNull() ? Double.NaN : chance.asDouble());
    } catch (JsonProcessingException e) {
      throw new AdviserFailedException("answer is not JSON: " + json, e);
    }
  }
}
