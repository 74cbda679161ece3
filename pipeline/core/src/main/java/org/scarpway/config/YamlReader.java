package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;

/**
 * Reads YAML 1.2 by its JSON schema (yes, 012 and 0x10 are text, not numbers) into plain data. The
 * size of the file, its depth, its aliases and the number of values that aliases expand to are
 * bounded; tags are refused, so no class can be named.
 */
final class YamlReader {
  static final int MAX_EVENTS = 100_000;
  static final int MAX_ALIASES = 40;

  private YamlReader() {}

  /**
   * Returns the file as data, or null if it could not be read; errors are added to {@code
   * problems}.
   */
  static YamlDoc read(Path file, String shownName, Problems problems) {
    String text = TextFile.read(file, shownName, problems);
    if (text == null) {
      return null;
    }
    Map<String, SourceLocation> values = new HashMap<>();
    Map<String, SourceLocation> keys = new HashMap<>();
    JsonNode root =
        parse(
            text,
            mark -> new SourceLocation(shownName, mark.getLine() + 1, mark.getColumn() + 1),
            SourceLocation.file(shownName),
            values,
            keys,
            problems);
    if (root == null) {
      return null;
    }
    if (!(root instanceof ObjectNode mapping)) {
      problems.add(
          new SourceLocation(shownName, 1, 1),
          "the file holds " + SchemaWords.kind(root),
          "a mapping of keys to values",
          "start with the line scarpway: 1");
      return null;
    }
    return new YamlDoc(shownName, mapping, values, keys);
  }

  /** Returns one value as given on the command line, or null. */
  static JsonNode readValue(String text, SourceLocation at, Problems problems) {
    if (text.isBlank()) {
      return JsonNodeFactory.instance.nullNode();
    }
    return parse(text, mark -> at, at, new HashMap<>(), new HashMap<>(), problems);
  }

  private static JsonNode parse(
      String text,
      Function<Mark, SourceLocation> place,
      SourceLocation whole,
      Map<String, SourceLocation> values,
      Map<String, SourceLocation> keys,
      Problems problems) {
    LoadSettings settings =
        LoadSettings.builder()
            .setMaxAliasesForCollections(MAX_ALIASES)
            .setLabel(whole.source())
            .setCodePointLimit(text.length() + 1)
            .build();
    try {
      if (!withinBounds(text, settings, place, whole, problems)) {
        return null;
      }
      Optional<Node> node = new Compose(settings).composeString(text);
      if (node.isEmpty()) {
        problems.add(whole, "the file is empty", "a mapping of keys to values", "fill it in");
        return null;
      }
      return new YamlTree(place, values, keys, problems).convert(node.get());
    } catch (MarkedYamlEngineException e) {
      Optional<Mark> mark = e.getProblemMark().or(e::getContextMark);
      syntax(mark.map(place).orElse(whole), e.getProblem(), problems);
    } catch (YamlEngineException e) {
      syntax(whole, e.getMessage(), problems);
    }
    return null;
  }

  private static void syntax(SourceLocation at, String complaint, Problems problems) {
    String what =
        complaint == null ? "it does not parse" : complaint.lines().findFirst().orElse("");
    String remedy =
        what.contains("\\t") || what.contains("TAB")
            ? "replace tabs by spaces"
            : "check indentation, quotes and brackets there";
    problems.add(at, "not valid YAML: " + what, "YAML 1.2", remedy);
  }

  /**
   * Walks the parser events without building anything, so that an expansion bomb is detected in
   * time.
   */
  private static boolean withinBounds(
      String text,
      LoadSettings settings,
      Function<Mark, SourceLocation> place,
      SourceLocation whole,
      Problems problems) {
    int depth = 0;
    int events = 0;
    int aliases = 0;
    int documents = 0;
    for (Event event : new Parse(settings).parseString(text)) {
      SourceLocation at = event.getStartMark().map(place).orElse(whole);
      if (++events > MAX_EVENTS) {
        problems.add(at, "too many values", "at most " + MAX_EVENTS, "split the file");
        return false;
      }
      Optional<String> tag = Optional.empty();
      if (event instanceof CollectionStartEvent start) {
        tag = start.getTag();
        depth++;
      } else if (event instanceof ScalarEvent scalar) {
        tag = scalar.getTag();
      } else if (event instanceof AliasEvent) {
        aliases++;
      }
      switch (event.getEventId()) {
        case SequenceEnd, MappingEnd -> depth--;
        case DocumentStart -> documents++;
        default -> {
          // The other events open nothing and close nothing.
        }
      }
      if (depth > YamlTree.MAX_DEPTH) {
        problems.add(
            at,
            "nested too deep",
            "at most " + YamlTree.MAX_DEPTH + " levels",
            "check the brackets there");
        return false;
      }
      if (aliases > MAX_ALIASES) {
        problems.add(
            at, "too many aliases", "at most " + MAX_ALIASES, "write the values out instead");
        return false;
      }
      if (documents > 1) {
        problems.add(
            at, "a second document starts", "one document per file", "remove the line ---");
        return false;
      }
      if (tag.isPresent()) {
        problems.add(
            at, "tag " + Problems.quote(tag.get()), "plain values without tags", "remove the tag");
        return false;
      }
    }
    return true;
  }
}
