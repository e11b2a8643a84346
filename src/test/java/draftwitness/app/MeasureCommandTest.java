package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.diagnosis.guided.Grade;
import draftwitness.diagnosis.guided.GuidedText;
import draftwitness.recording.Notebook;
import draftwitness.testkit.Program;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Guided measurements on recordings, as a person types them: a bench rig, and the model house. */
class MeasureCommandTest {
    @TempDir
    Path folder;

    private Path rig(BenchRig rig, double seconds, DoubleUnaryOperator pump) throws IOException {
        Path csv = folder.resolve("rig.csv");
        Path setup = folder.resolve("rig.toml");
        Path file = folder.resolve("rig.dwrec");
        rig.write(csv, seconds, pump);
        Files.writeString(setup, "[switch]\nset-point = \"150 Pa\"\ntolerance = \"12 Pa\"\n");
        Program.Result made =
                Program.run("import", csv.toString(), "--out", file.toString(), "--setup", setup.toString());
        assertThat(made.complaints()).isEmpty();
        return file;
    }

    private static double figure(String json, String id) {
        Matcher m =
                Pattern.compile("\"id\":\"" + id + "\",\"value\":(-?[0-9.E-]+)").matcher(json);
        assertThat(m.find()).as(id + " in " + json).isTrue();
        return Double.parseDouble(m.group(1));
    }

    @Test
    void givenALeakOnTheBench_whenMeasuredAndKept_thenItsTimeConstant_andTheNoteTellsTheSame() throws Exception {
        Path file = rig(new BenchRig(0.8, 150, 130), 30, t -> t < 2 ? 500 : 0);
        Program.Result result =
                Program.run("measure", "leak-down", file.toString(), "--from", "0", "--to", "30s", "--json", "--keep");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(figure(result.out(), "time-constant")).isCloseTo(0.8, within(0.03));
        assertThat(result.out())
                .contains("\"grade\":\"fault\"")
                .contains("\"check\":\"leak-down\",\"outcome\":\"falls\"");
        assertThat(Notebook.of(file).notes())
                .singleElement()
                .satisfies(note -> assertThat(GuidedText.parse(note.text()))
                        .hasValueSatisfying(kept -> assertThat(kept.grade()).isEqualTo(Grade.FAULT)));
    }

    @Test
    void givenThreeRampsOnTheBench_whenMeasured_thenTheSwitchesOwnPoints() throws Exception {
        Path file = rig(new BenchRig(1e6, 171, 149), 150, t -> t % 50 < 25 ? 10 : -10);
        Program.Result result =
                Program.run("measure", "switch-points", file.toString(), "--from", "0", "--to", "2m30s", "--json");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(figure(result.out(), "make")).isCloseTo(171, within(1.0));
        assertThat(figure(result.out(), "break")).isCloseTo(149, within(1.0));
        assertThat(result.out()).contains("\"outcome\":\"off-rating\"");
    }

    @Test
    void givenAHouseWithAKinkedTube_whenTapsAreCompared_thenTheSwitchSeesItLate() {
        Program.Result result =
                Program.run("measure", "two-taps", "recordings/tube-blocked-mild.dwrec", "--from", "5s", "--to", "80s");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(result.out())
                .startsWith("two-taps: fault")
                .contains("The tube or its port is narrowed")
                .contains("To the diagnosis: two-tap = slow")
                .contains("Never bypass or jumper");
    }

    @Test
    void givenAHouseWithTheVentRestrictedAndThenOff_whenComparedAcrossTwoRecordings_thenItRecovers() throws Exception {
        Path on = simulate("on.toml", 0.92, "1.0");
        Path off = simulate("off.toml", 0.001, "0.2");
        Program.Result result = Program.run(
                "measure",
                "vent-on-off",
                on.toString(),
                "--part",
                "on=22..30",
                "--part",
                "off=22..30@" + off,
                "--json");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(figure(result.out(), "gain")).isGreaterThan(0.25);
        assertThat(result.out()).contains("\"check\":\"vent-off\",\"outcome\":\"recovers\"");
    }

    /** The same house with a vent as it is, or with next to none. */
    private Path simulate(String name, double severity, String vent) throws IOException {
        Path scenario = folder.resolve(name);
        Files.writeString(scenario, """
                [house]
                vent-factor = %s
                variety = 0
                [[fault]]
                cause = "vent-restricted"
                severity = %s
                [[sensor]]
                tap = "draft.inducer"
                """.formatted(vent, severity));
        Path file = folder.resolve(name.replace(".toml", ".dwrec"));
        Program.Result made = Program.run("simulate", scenario.toString(), "--for", "40s", "--out", file.toString());
        assertThat(made.code()).as(made.err()).isZero();
        return file;
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # arguments | told
            leak-up recordings/demo-house.dwrec | known: leak-down
            static-pressure recordings/demo-house.dwrec --from 0 --to 10 | needs static.return and static.supply
            vent-on-off recordings/demo-house.dwrec --from 0 --to 10 | has several parts (on, off)
            vent-on-off recordings/demo-house.dwrec --part up=0..10 | has the parts on, off
            vent-on-off recordings/demo-house.dwrec --part on=10 | write it as NAME=FROM..TO
            vent-on-off recordings/demo-house.dwrec --part on=10..5 | the span is empty
            leak-down recordings/demo-house.dwrec | say which span
            leak-down recordings/demo-house.dwrec --from 0 --to 10 --volume -3 | is not a volume
            leak-down recordings/none.dwrec --from 0 --to 10 | none.dwrec
            """)
    void givenWrongUsage_whenMeasured_thenOneLineSaysWhat(String arguments, String told) {
        Program.Result result = Program.run(("measure " + arguments).split(" "));
        assertThat(result.code()).isEqualTo(2);
        assertThat(result.out()).isEmpty();
        assertThat(result.complaints()).singleElement().asString().contains(told);
    }
}
