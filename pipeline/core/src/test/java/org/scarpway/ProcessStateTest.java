package org.scarpway;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.lang.reflect.Field;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Static fields are constants: two jobs in one process know nothing of each other. Excepted is what
 * the process itself has only once.
 */
class ProcessStateTest {
  /** The native library, the peak of the heap, and numbers in names of temporary folders. */
  private static final Set<String> OF_THE_PROCESS =
      Set.of(
          "geodata.raster.GdalRuntime.QUIET",
          "geodata.raster.GdalRuntime.problem",
          "geodata.raster.GdalRuntime.tried",
          "run.progress.PeakMemory.mostHeapMb",
          "run.store.StageStore.MADE");

  private static boolean changes(JavaField field) throws ReflectiveOperationException {
    if (!field.getModifiers().contains(JavaModifier.FINAL)) {
      return true;
    }
    JavaClass type = field.getRawType();
    if (type.getName().startsWith("java.util.concurrent.")
        || type.isAssignableTo(ThreadLocal.class)) {
      return true;
    }
    if (!type.isAssignableTo(Map.class) && !type.isAssignableTo(Collection.class)) {
      return false;
    }
    Field actual = field.reflect();
    actual.setAccessible(true);
    Object value = actual.get(null);
    String held = value.getClass().getName();
    return !(value instanceof EnumSet)
        && !held.startsWith("java.util.ImmutableCollections")
        && !held.startsWith("java.util.Collections$Unmodifiable");
  }

  @Test
  void onlyConstantsAreStatic() throws ReflectiveOperationException {
    Set<String> found = new TreeSet<>();
    for (JavaClass c :
        new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.scarpway")) {
      for (JavaField field : c.getFields()) {
        if (field.getModifiers().contains(JavaModifier.STATIC)
            && !field.getModifiers().contains(JavaModifier.SYNTHETIC)
            && changes(field)) {
          found.add(field.getFullName().substring("org.scarpway.".length()));
        }
      }
    }
    assertEquals(new TreeSet<>(OF_THE_PROCESS), found);
  }
}
