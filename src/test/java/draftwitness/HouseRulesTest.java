package draftwitness;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackages;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.time.Instant;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** The arrows of docs/architecture.md: who may know whom, and where outside libraries stay. */
class HouseRulesTest {

    private static final String[] JDK_AND_MARKS = {"java..", "org.jspecify.."};

    private static String[] withJdk(String... rooms) {
        String[] all = Arrays.copyOf(rooms, rooms.length + JDK_AND_MARKS.length + 1);
        System.arraycopy(JDK_AND_MARKS, 0, all, rooms.length, JDK_AND_MARKS.length);
        all[all.length - 1] = "org.slf4j..";
        return all;
    }

    private static ArchRule onlyKnows(String room, String because, String... known) {
        String[] allowed = Arrays.copyOf(known, known.length + 1);
        allowed[known.length] = "draftwitness." + room + "..";
        return classes()
                .that()
                .resideInAPackage("draftwitness." + room + "..")
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage(withJdk(allowed)))
                .because(because);
    }

    static final ArchRule READING =
            onlyKnows("reading", "the shared words know nobody, so that everybody can know them");

    static final ArchRule TIME = onlyKnows("time", "a clock needs nothing");

    static final ArchRule INPUT = onlyKnows(
            "input",
            "what people write is read in one place, and the TOML library stays there",
            "draftwitness.reading..",
            "org.tomlj..");

    static final ArchRule SETUP =
            onlyKnows("setup", "a setup is facts read from text", "draftwitness.reading..", "draftwitness.input..");

    static final ArchRule LINK = onlyKnows(
            "link",
            "links move bytes and know nothing of what they mean",
            "draftwitness.reading..",
            "draftwitness.input..",
            "draftwitness.time..",
            "com.fazecast..",
            "jdk.net..",
            "org.bluez..",
            "org.freedesktop.dbus..");

    static final ArchRule SERIAL_STAYS_OUT_OF_BLUETOOTH = noClasses()
            .that()
            .resideInAPackage("draftwitness.link.ble..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.fazecast..")
            .because("each library has one owner");

    static final ArchRule D_BUS_STAYS_IN_BLUETOOTH = noClasses()
            .that(resideOutsideOfPackages("draftwitness.link.ble.."))
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.bluez..", "org.freedesktop..")
            .because("where there is no D-Bus the program must not miss it");

    static final ArchRule ONE_CLASS_SPEAKS_D_BUS = noClasses()
            .that()
            .resideInAPackage("draftwitness.link.ble..")
            .and()
            .doNotHaveSimpleName("Bus")
            .and()
            .haveNameNotMatching(".*\\.Bus\\$.*")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.bluez..", "org.freedesktop..")
            .because("then nothing of D-Bus is loaded before Bus is");

    static final ArchRule LINKS_DO_NOT_KNOW_BLUETOOTH = noClasses()
            .that()
            .resideInAPackage("draftwitness.link")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("draftwitness.link.ble..")
            .because("it is registered by app like every further kind of link");

    static final ArchRule DRIVER = onlyKnows(
            "driver",
            "decoding is pure: no link, no clock, no thread",
            "draftwitness.reading..",
            "draftwitness.input..");

    static final ArchRule CAPTURE = onlyKnows(
            "capture",
            "a live session knows its sources, and not who listens",
            "draftwitness.reading..",
            "draftwitness.link..",
            "draftwitness.driver..",
            "draftwitness.time..");

    static final ArchRule RECORDING = onlyKnows(
            "recording",
            "a file of readings needs the readings only",
            "draftwitness.reading..",
            "draftwitness.input..",
            "draftwitness.time..",
            "org.sqlite..",
            "org.apache.parquet..",
            "shaded.parquet..",
            "io.airlift.compress..");

    static final ArchRule PARQUET_STAYS_IN_ITS_PLACE = noClasses()
            .that(resideOutsideOfPackages("draftwitness.recording.parquet.."))
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.apache.parquet..", "shaded.parquet..", "io.airlift.compress..")
            .because("the format's library is reached through columns and rows only");

    static final ArchRule PARQUET_KNOWS_NO_RECORDING = onlyKnows(
            "recording.parquet",
            "a table format knows nothing of taps and sessions",
            "org.apache.parquet..",
            "shaded.parquet..",
            "io.airlift.compress..");

    static final ArchRule SIGNAL =
            onlyKnows("signal", "numeric functions work on plain numbers", "draftwitness.reading..");

    static final ArchRule CYCLE = onlyKnows(
            "cycle",
            "what happened is computed from readings alone, live and replayed alike",
            "draftwitness.reading..",
            "draftwitness.setup..",
            "draftwitness.signal..");

    static final ArchRule DIAGNOSIS = onlyKnows(
            "diagnosis",
            "evidence is weighed from what the session showed, wherever it came from",
            "draftwitness.reading..",
            "draftwitness.input..",
            "draftwitness.setup..",
            "draftwitness.signal..",
            "draftwitness.cycle..");

    static final ArchRule FURNACE = onlyKnows(
            "furnace",
            "the model must not see what the analysis sees in it",
            "draftwitness.reading..",
            "draftwitness.input..",
            "draftwitness.setup..");

    static final ArchRule REPLAY = onlyKnows(
            "replay",
            "a replay is a recording played, whatever is done with it",
            "draftwitness.reading..",
            "draftwitness.recording..",
            "draftwitness.time..");

    static final ArchRule REPORT = onlyKnows(
            "report",
            "results are told from values alone",
            "draftwitness.reading..",
            "draftwitness.setup..",
            "draftwitness.input..",
            "draftwitness.cycle..",
            "draftwitness.diagnosis..",
            "com.fasterxml.jackson..",
            "com.openhtmltopdf..");

    static final ArchRule BRIDGE = onlyKnows(
            "bridge",
            "what is handed on is the session and what the analysis says of it, whoever receives it",
            "draftwitness.reading..",
            "draftwitness.setup..",
            "draftwitness.input..",
            "draftwitness.time..",
            "draftwitness.cycle..",
            "draftwitness.report..",
            "com.fasterxml.jackson..",
            "com.hivemq..",
            "javax.net.ssl..");

    static final ArchRule ONE_CLASS_SPEAKS_MQTT = noClasses()
            .that()
            .doNotHaveSimpleName("BrokerLink")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.hivemq..")
            .because("a library's types stay with the one class that owns it");

    static final ArchRule DASHBOARD_DOES_NOT_KNOW_ITS_SIBLINGS = noClasses()
            .that()
            .resideInAPackage("draftwitness.dashboard..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "draftwitness.recording..",
                    "draftwitness.link..",
                    "draftwitness.driver..",
                    "draftwitness.capture..",
                    "draftwitness.furnace..",
                    "draftwitness.report..",
                    "draftwitness.bridge..",
                    "draftwitness.replay..",
                    "org.sqlite..",
                    "com.fazecast..",
                    "com.fasterxml..",
                    "draftwitness.app..")
            .because("live and replay reach the screen the same way, wired by app");

    static final ArchRule ONLY_APP_SEES_EVERYTHING = noClasses()
            .that(resideOutsideOfPackages("draftwitness.app.."))
            .should()
            .dependOnClassesThat()
            .resideInAPackage("draftwitness.app..")
            .because("wiring knows the rooms, never the other way round");

    static final ArchRule NO_CYCLES =
            slices().matching("draftwitness.(*)..").should().beFreeOfCycles().because("data walks one way");

    static final ArchRule SWING_STAYS_IN_THE_VIEW = noClasses()
            .that(resideOutsideOfPackages("draftwitness.dashboard.view..", "draftwitness.app"))
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("javax.swing..", "com.formdev..", "net.miginfocom..", "org.jfree..")
            .because("models are tested without a screen, and charts stay in one place");

    static final ArchRule ONE_PLACE_FOR_CLOCKS = noClasses()
            .that(resideOutsideOfPackages("draftwitness.time.."))
            .should()
            .callMethod(System.class, "nanoTime")
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethod(Instant.class, "now")
            .orShould()
            .callMethod(Thread.class, "sleep", long.class)
            .orShould()
            .callMethod(TimeUnit.class, "sleep", long.class)
            .because("time is handed in, so that tests and simulations can bring their own");

    static final ArchRule STANDARD_STREAMS_BELONG_TO_THE_COMMAND_LINE = noClasses()
            .that(resideOutsideOfPackages("draftwitness.app.."))
            .should()
            .accessField(System.class, "out")
            .orShould()
            .accessField(System.class, "err")
            .because("standard output carries results alone");

    static final ArchRule PICOCLI_STAYS_ON_THE_COMMAND_LINE = noClasses()
            .that(resideOutsideOfPackages("draftwitness.app.."))
            .should()
            .dependOnClassesThat()
            .resideInAPackage("picocli..")
            .because("rooms are used from clicks too");

    /** Every rule above, by its name; a rule that no class falls under fails too. */
    @TestFactory
    Stream<DynamicTest> houseRules() {
        JavaClasses house = new ClassFileImporter()
                .withImportOption(new ImportOption.DoNotIncludeTests())
                .importPackages("draftwitness");
        return Arrays.stream(HouseRulesTest.class.getDeclaredFields())
                .filter(f -> f.getType() == ArchRule.class)
                .map(f -> DynamicTest.dynamicTest(f.getName(), () -> ((ArchRule) f.get(null)).check(house)));
    }
}
