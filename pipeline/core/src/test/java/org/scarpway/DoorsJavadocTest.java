package org.scarpway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.source.doctree.DocCommentTree;
import com.sun.source.doctree.ParamTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.DocTrees;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreePathScanner;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.lang.model.element.Modifier;
import javax.tools.Diagnostic;
import javax.tools.DiagnosticCollector;
import javax.tools.DocumentationTool;
import javax.tools.JavaFileObject;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The types that programs outside a package may use have complete documentation, and the
 * documentation of the whole program is sound, by the documentation tool of the JDK.
 */
class DoorsJavadocTest {
  private static final Path ROOT = Path.of(System.getProperty("scarpway.root", "../.."));
  private static final Path MAIN =
      ROOT.resolve("pipeline/core/src/main/java").toAbsolutePath().normalize();
  private static final Path EXAMPLE = ROOT.resolve("pipeline/example/src");

  /** A type that the example names, as the import or a link spells it. */
  private static final Pattern NAMED =
      Pattern.compile("org\\.scarpway((?:\\.[a-z]+)+\\.[A-Z]\\w*)");

  /** Interfaces between stages that the example need not name but every caller meets. */
  private static final Set<String> ALSO = Set.of("vehicle/TraversalCost.java", "stage/Memory.java");

  private static Set<Path> doors;

  @BeforeAll
  static void findDoors() throws IOException {
    doors = new TreeSet<>();
    ALSO.forEach(file -> doors.add(MAIN.resolve("org/scarpway").resolve(file)));
    ArchitectureTest.DOORS.forEach(
        (name, types) ->
            types.forEach(
                type -> {
                  Path at = MAIN.resolve("org/scarpway").resolve(name);
                  if (type.endsWith(".*")) {
                    doors.addAll(sources(at.resolve(type.substring(0, type.length() - 2))));
                  } else {
                    doors.add(at.resolve(type.replace('.', '/') + ".java"));
                  }
                }));
    doors.addAll(sources(MAIN.resolve("org/scarpway/grid")));
    for (Path file : sources(EXAMPLE)) {
      NAMED
          .matcher(Files.readString(file))
          .results()
          .map(found -> MAIN.resolve("org/scarpway" + found.group(1).replace('.', '/') + ".java"))
          .forEach(doors::add);
    }
    List<Path> missing = doors.stream().filter(file -> !Files.exists(file)).toList();
    assertTrue(missing.isEmpty(), "no such source: " + missing);
  }

  private static List<Path> sources(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(p -> p.toString().endsWith(".java")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * All sources are passed to the tool: given some only, it fails on a link to a type that is not
   * public.
   */
  @Test
  void nothingIsBrokenAndNoDoorLacksAComment(@TempDir Path out) throws IOException {
    DocumentationTool tool = ToolProvider.getSystemDocumentationTool();
    DiagnosticCollector<JavaFileObject> found = new DiagnosticCollector<>();
    List<String> options = new ArrayList<>(List.of("-quiet", "-Xdoclint:all", "-locale", "en_US"));
    options.addAll(List.of("-noindex", "-notree", "-nohelp", "-nonavbar", "-encoding", "UTF-8"));
    options.addAll(List.of("-Xmaxerrs", "100000", "-Xmaxwarns", "100000", "-d", out.toString()));
    options.addAll(List.of("-sourcepath", MAIN.toString()));
    options.addAll(List.of("-classpath", System.getProperty("java.class.path")));
    boolean made;
    try (StandardJavaFileManager files =
        tool.getStandardFileManager(found, Locale.ROOT, StandardCharsets.UTF_8)) {
      made =
          tool.getTask(
                  Writer.nullWriter(),
                  files,
                  found,
                  null,
                  options,
                  files.getJavaFileObjectsFromPaths(sources(MAIN)))
              .call();
    }
    List<String> faults = new ArrayList<>();
    int remarks = 0;
    for (Diagnostic<? extends JavaFileObject> d : found.getDiagnostics()) {
      String text = d.getMessage(Locale.ROOT);
      Path file =
          d.getSource() == null
              ? null
              : Path.of(d.getSource().toUri()).toAbsolutePath().normalize();
      remarks += file != null && doors.contains(file) ? 1 : 0;
      if (counts(d, text, file)) {
        faults.add(file + ":" + d.getLineNumber() + ": " + text);
      }
    }
    assertTrue(faults.isEmpty(), String.join("\n", faults));
    assertTrue(made, "the documentation was not made");
    // A tool that looks into no door would find no fault: missing @param of methods are remarked.
    assertTrue(remarks > 0, "no door was examined");
  }

  private static boolean counts(Diagnostic<? extends JavaFileObject> d, String text, Path file) {
    if (d.getKind() == Diagnostic.Kind.ERROR) {
      return true;
    }
    boolean warning =
        d.getKind() == Diagnostic.Kind.WARNING || d.getKind() == Diagnostic.Kind.MANDATORY_WARNING;
    if (!warning || text.contains("no @param for") || text.contains("no @return")) {
      return false;
    }
    boolean missing = text.contains("no comment") || text.contains("no @throws");
    return !missing || doors.contains(file);
  }

  /** The tool does not ask for the components of records. */
  @Test
  void everyComponentOfADoorRecordIsDescribed() throws IOException {
    Set<String> silent = new TreeSet<>();
    int[] records = {0};
    var compiler = ToolProvider.getSystemJavaCompiler();
    try (StandardJavaFileManager files =
        compiler.getStandardFileManager(null, Locale.ROOT, StandardCharsets.UTF_8)) {
      JavacTask task =
          (JavacTask)
              compiler.getTask(
                  null,
                  files,
                  null,
                  List.of("-proc:none"),
                  null,
                  files.getJavaFileObjectsFromPaths(doors));
      DocTrees docs = DocTrees.instance(task);
      for (CompilationUnitTree unit : task.parse()) {
        new TreePathScanner<Void, Void>() {
          @Override
          public Void visitClass(ClassTree type, Void none) {
            if (type.getKind() == Tree.Kind.RECORD
                && type.getModifiers().getFlags().contains(Modifier.PUBLIC)) {
              records[0]++;
              Set<String> said = described(docs.getDocCommentTree(getCurrentPath()));
              for (Tree member : type.getMembers()) {
                if (member instanceof VariableTree v
                    && !v.getModifiers().getFlags().contains(Modifier.STATIC)
                    && !said.contains(v.getName().toString())) {
                  silent.add(type.getSimpleName() + "." + v.getName());
                }
              }
            }
            return super.visitClass(type, null);
          }
        }.scan(unit, null);
      }
    }
    assertTrue(records[0] > 20, "records seen: " + records[0]);
    assertEquals(Set.of(), silent, "components without @param");
  }

  private static Set<String> described(DocCommentTree comment) {
    Set<String> names = new HashSet<>();
    if (comment != null) {
      comment.getBlockTags().stream()
          .filter(ParamTree.class::isInstance)
          .map(ParamTree.class::cast)
          .filter(p -> !p.getDescription().isEmpty())
          .forEach(p -> names.add(p.getName().toString()));
    }
    return names;
  }
}
