package rampwright.app.architecture;

import static com.tngtech.archunit.base.DescribedPredicate.alwaysTrue;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.belongToAnyOf;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.lang.ArchRule;
import java.nio.file.Files;

/** Which library is known where. */
final class LibraryRules {
  private LibraryRules() {}

  private static ArchRule only(String because, String[] where, String... libraries) {
    return noClasses()
        .that()
        .resideOutsideOfPackages(where)
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(libraries)
        .because(because);
  }

  private static String[] in(String... packages) {
    return packages;
  }

  static final ArchRule MODBUS_LIBRARY =
      only(
          "its names and its threads stay behind the source port",
          in("rampwright.acquisition.modbus..", "rampwright.acquisition.bench.."),
          "com.ghgande..");

  /** Messages of the library that are not one of the four that read. */
  private static final String OTHER_MESSAGES =
      "com\\.ghgande\\.j2mod\\.modbus\\.(facade\\..*|msg\\.(Write|Mask|ReadWrite|ReadFile|ReadFIFO|Report|"
          + "ReadSerial|ReadComm|ReadMEI|ReadException|Illegal).*)";

  static final ArchRule NOTHING_WRITES_TO_A_DEVICE =
      noClasses()
          .that()
          .resideOutsideOfPackage("rampwright.acquisition.bench..")
          .should()
          .dependOnClassesThat()
          .haveNameMatching(OTHER_MESSAGES)
          .because("this program measures; a person sets the starter");

  static final ArchRule SERIAL_LIBRARY =
      only(
          "its names and its native code stay behind the source port",
          in(
              "rampwright.acquisition.serial..",
              "rampwright.acquisition.modbus..",
              "rampwright.acquisition.bench.."),
          "com.fazecast..");

  static final ArchRule SOCKETS =
      noClasses()
          .that()
          .resideOutsideOfPackages(
              "rampwright.acquisition.modbus..",
              "rampwright.acquisition.bench..",
              "rampwright.app.alert..")
          .should()
          .dependOnClassesThat()
          .haveNameMatching("java\\.net\\.(.*Socket.*|.*Connection|http\\..*)")
          .because("what talks to the network can be listed on one hand");

  static final ArchRule DATABASES =
      only(
          "the store can be changed without anybody noticing",
          in("rampwright.app.logbook.."),
          "java.sql..",
          "javax.sql..",
          "org.sqlite..",
          "org.postgresql..");

  static final ArchRule PARQUET_LIBRARY =
      only(
          "it brings a framework's names along, and only an export needs it",
          in("rampwright.app.logbook.."),
          "org.apache.parquet..",
          "org.apache.hadoop..",
          "blue.strategic..");

  static final ArchRule FILES =
      noClasses()
          .that()
          .resideOutsideOfPackages(
              "rampwright.acquisition.file..",
              "rampwright.acquisition.toml..",
              "rampwright.acquisition.record..",
              "rampwright.acquisition.watch..",
              "rampwright.app..")
          .should()
          .dependOnClassesThat(belongToAnyOf(Files.class).and(alwaysTrue()))
          .because("who touches the disk can be listed on one hand");

  static final ArchRule WINDOWS =
      only(
          "everything else runs where there is no display",
          in("rampwright.app.desk.view..", "rampwright.app.chart..", "rampwright.app.pdf.."),
          "java.awt..",
          "javax.swing..",
          "org.knowm..");

  static final ArchRule COMMAND_LINE_LIBRARY =
      only(
          "use cases can be called without a command line",
          in("rampwright.app.cli..", "rampwright.app"),
          "picocli..");

  static final ArchRule TABLE_LIBRARY =
      only(
          "it takes half a second to load and stays off the way of a single trace",
          in("rampwright.app.summary..", "rampwright.app.trend..", "rampwright.app.logbook.."),
          "tech.tablesaw..");

  static final ArchRule TOML_LIBRARY =
      only(
          "every file a person writes is read with the same care",
          in("rampwright.acquisition.toml.."),
          "org.tomlj..",
          "org.antlr..");

  static final ArchRule TEMPLATE_LIBRARY =
      only(
          "every text on a page goes through the engine's escaping in one place",
          in("rampwright.app.page.."),
          "gg.jte..");

  static final ArchRule PAPER_LIBRARY =
      only(
          "what it may fetch and what font it sets with is decided in one place",
          in("rampwright.app.pdf.."),
          "com.openhtmltopdf..",
          "org.apache.pdfbox..");

  static final ArchRule JSON_LIBRARY =
      only(
          "the keys of JSON answers are written in one place",
          in("rampwright.app.json.."),
          "com.fasterxml..");
}
