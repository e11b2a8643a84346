package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QueryDecoderTest {
    private static final long SECOND = 1_000_000_000L;

    @TempDir
    Path folder;

    private static Driver shipped(String parameters) throws InputException {
        return DriverCatalog.shipped().find("scpi-query" + parameters);
    }

    private Driver load(String text) throws InputException, IOException {
        Path file = Files.writeString(folder.resolve("mine.toml"), "title = \"t\"\nkind = \"query\"\n" + text);
        return DriverCatalog.fromFile(file.toString());
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    private static List<String> texts(Conversation talk) {
        return talk.asked.stream()
                .map(q -> new String(q, StandardCharsets.US_ASCII))
                .toList();
    }

    private static List<Chunk> reply(String text) {
        return Conversation.after(10, ascii(text));
    }

    @Test
    void givenInstrumentThatAnswers_whenPolled_thenReadingsComeAtThePeriod() throws InputException {
        Conversation talk = new Conversation(shipped(""), (q, n) -> reply("-312.4" + n + "\n")).run(2 * SECOND);

        assertThat(talk.log.readings).startsWith("0: -312.40 Pa", "0: -312.41 Pa", "0: -312.42 Pa");
        assertThat(texts(talk)).startsWith("MEAS:PRES?\n");
        assertThat(talk.askedAt.get(1) - talk.askedAt.get(0)).isEqualTo(200_000_000L);
        assertThat(talk.log.faults).isEmpty();
    }

    /** NR1, NR2, NR3 and special values of IEEE 488.2 / SCPI-1999, volume 1, section 7.2.1 (number from memory). */
    @ParameterizedTest
    @CsvSource(textBlock = """
            # answer,         event
            '-312',           '0: -312 Pa'
            '-312.40',        '0: -312.40 Pa'
            '-3.124E+02',     '0: -312.4 Pa'
            '+3.1E2',         '0: 310 Pa'
            '9.91E37',        'NO_VALUE 0'
            '9.91000E+37',    'NO_VALUE 0'
            '9.9E+37',        'OVER_RANGE 0'
            '-9.9E37',        'OVER_RANGE 0'
            '+9.90000000E+37','OVER_RANGE 0'
            """)
    void givenNumberOfAnyForm_whenAnswered_thenItMeansWhatTheStandardSays(String answer, String event)
            throws InputException {
        Conversation talk = new Conversation(shipped(""), (q, n) -> reply(answer + "\r\n")).run(SECOND);

        assertThat(talk.log.events).startsWith(event);
    }

    @Test
    void givenAnswerInPieces_whenCutAnywhere_thenItIsRead() throws InputException {
        byte[] answer = ascii("\r\n-312.4 Pa\r\n> ");
        Driver driver = shipped("");
        for (int cut = 1; cut < answer.length; cut++) {
            int at = cut;
            Conversation talk =
                    new Conversation(driver, (q, n) -> Conversation.cut(10, answer, at, 50)).run(2 * SECOND);
            assertThat(talk.log.readings).hasSizeGreaterThan(5).containsOnly("0: -312.4 Pa");
            assertThat(talk.log.faults).isEmpty();
        }
    }

    @Test
    void givenEcho_whenTheQuestionComesBack_thenItIsNotTheAnswer() throws InputException {
        Conversation talk = new Conversation(shipped(""), (q, n) -> reply("MEAS:PRES?\r\n-5.0\r\n> ")).run(SECOND);

        assertThat(talk.log.readings).contains("0: -5.0 Pa");
        assertThat(talk.log.faults).isEmpty();
    }

    @Test
    void givenLateAnswer_whenItComesAfterTheTimeOut_thenItIsNoOnesAnswer() throws InputException {
        Conversation talk = new Conversation(
                        shipped(""), (q, n) -> n == 0 ? Conversation.after(1300, ascii("-1\n")) : reply("-2\n"))
                .run(4 * SECOND);

        assertThat(talk.log.readings).isNotEmpty().containsOnly("0: -2 Pa");
        assertThat(talk.log.faults).containsKeys(Fault.NO_ANSWER, Fault.STRAY_ANSWER);
    }

    @Test
    void givenDamagedAnswer_whenJudged_thenItIsDroppedAndAskedAgainAfterQuiet() throws InputException {
        Conversation talk =
                new Conversation(shipped(""), (q, n) -> reply(n == 0 ? "-3\u00112.4\n" : "-312.4\n")).run(2 * SECOND);

        assertThat(talk.log.events).startsWith("GARBLED 7", "0: -312.4 Pa");
        assertThat(talk.askedAt.get(1) - talk.askedAt.get(0)).isGreaterThanOrEqualTo(500_000_000L);
    }

    @Test
    void givenTwoLinesForOneQuestion_whenTheSecondComes_thenItIsStray() throws InputException {
        Conversation talk = new Conversation(shipped(""), (q, n) -> reply("-1\n-2\n")).run(3 * SECOND);

        assertThat(talk.log.readings).isNotEmpty().containsOnly("0: -1 Pa");
        assertThat(talk.log.faults).containsKey(Fault.STRAY_ANSWER);
    }

    @Test
    void givenUnfinishedBytesBeforeAQuestion_whenAsked_thenTheyAreNotTheHeadOfItsAnswer() throws InputException {
        // "12" without an end lies there when the next question is due; its rest must not join the answer
        Conversation talk = new Conversation(
                        shipped(""), (q, n) -> n == 0 ? Conversation.cut(10, ascii("-5\n12"), 3, 20) : reply("34\n"))
                .run(3 * SECOND);

        assertThat(talk.log.readings).contains("0: -5 Pa", "0: 34 Pa").doesNotContain("0: 1234 Pa");
        assertThat(talk.log.faults).containsEntry(Fault.STRAY_ANSWER, 1);
    }

    @Test
    void givenStartUpCommands_whenTheInstrumentLosesPower_thenTheyAreSentAgain() throws InputException, IOException {
        Driver driver = load("""
                [query]
                start = ["*CLS", "*IDN?", "UNIT PA"]
                [[reading]]
                name = "p"
                unit = "Pa"
                ask = "P?"
                [[reading]]
                name = "q"
                unit = "Pa"
                ask = "Q?"
                """);
        Conversation talk = new Conversation(driver, (q, n) -> answer(new String(q, StandardCharsets.US_ASCII), n))
                .run(10 * SECOND);

        assertThat(texts(talk))
                .startsWith(
                        "*CLS\n",
                        "*IDN?\n",
                        "UNIT PA\n",
                        "P?\n",
                        "Q?\n",
                        "P?\n",
                        "*CLS\n",
                        "*IDN?\n",
                        "UNIT PA\n",
                        "P?\n");
        assertThat(talk.log.readings).startsWith("0: -1 Pa", "1: -2 Pa", "0: -1 Pa", "1: -2 Pa");
        assertThat(talk.log.faults).containsOnlyKeys(Fault.NO_ANSWER);
    }

    private static List<Chunk> answer(String question, int number) {
        if (number == 5) {
            return List.of(); // no power
        }
        return switch (question) {
            case "*IDN?\n" -> reply("SOME,GAUGE,1,2\n");
            case "P?\n" -> reply("-1\n");
            case "Q?\n" -> reply("-2\n");
            default -> List.of();
        };
    }

    @Test
    void givenSeveralReadingsInOneAnswer_whenAsked_thenTheQuestionIsSentOnce() throws InputException, IOException {
        Driver driver = load("""
                [query]
                ask = "ALL?"
                [line]
                separator = "comma"
                [[reading]]
                name = "p"
                unit = "Pa"
                column = 1
                [[reading]]
                name = "s"
                unit = "1"
                column = 2
                words = { CLOSED = 1, OPEN = 0 }
                """);
        Conversation talk = new Conversation(driver, (q, n) -> reply("-12.5,closed\n")).run(SECOND);

        assertThat(talk.log.events).startsWith("0: -12.5 Pa", "1: 1 1", "message 13");
    }

    @Test
    void givenNoQuestion_whenRead_thenTheDescriptionIsRefused() {
        assertThatThrownBy(() -> load("[[reading]]\nname = \"p\"\nunit = \"Pa\"\n"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("mine.toml:3: [reading] no question");
    }

    @Test
    void givenRandomInput_whenDecoded_thenNothingIsThrownOrLost() throws InputException {
        Driver driver = shipped("?period=0.001&timeout=0.01&quiet=0.001");
        List<byte[]> good = new ArrayList<>(List.of(ascii("-312.4 Pa\r\n"), ascii("9.91E37\n"), ascii("> ")));

        DecodeLog log = RandomCases.feed(driver, 6, 1_000_000, 600, good);

        assertThat(log.readings).isNotEmpty();
        assertThat(log.faults).containsKeys(Fault.STRAY_ANSWER, Fault.NO_ANSWER, Fault.GARBLED);
    }
}
