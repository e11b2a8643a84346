package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.input.InputException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Frames are the examples of "MODBUS Application Protocol Specification V1.1b3" (2012), sections 6.3 and 6.4, as found
 * in public test files that cite it, with the CRC of the serial line guide.
 */
class ModbusDecoderTest {
    private static final long SECOND = 1_000_000_000L;

    /** 555, 0 and 100 from unit 17. */
    private static final byte[] REPLY = Hex.bytes("11 03 06 02 2B 00 00 00 64 C8 BA");

    @TempDir
    Path folder;

    private Driver driver(String modbus, String readings) throws InputException, IOException {
        Path file = Files.writeString(
                folder.resolve("mine.toml"),
                "title = \"t\"\nkind = \"modbus\"\n[modbus]\nunit-id = 17\n" + modbus + "\n" + readings);
        return DriverCatalog.fromFile(file.toString());
    }

    private static String reading(String name, int register) {
        return "[[reading]]\nname = \"" + name + "\"\nunit = \"Pa\"\nregister = " + register + "\n";
    }

    private Driver three() throws InputException, IOException {
        return driver("", reading("a", 107) + reading("b", 108) + reading("c", 109));
    }

    @Test
    void givenThreeNeighbouringRegisters_whenPolled_thenOneQuestionAsksForAll() throws InputException, IOException {
        Conversation talk = new Conversation(three(), (q, n) -> Conversation.after(20, REPLY)).run(SECOND);

        assertThat(Hex.text(talk.asked.get(0))).isEqualTo("11 03 00 6B 00 03 76 87");
        assertThat(talk.log.readings).startsWith("0: 555 Pa", "1: 0 Pa", "2: 100 Pa");
        assertThat(talk.log.faults).isEmpty();
        assertThat(talk.askedAt.get(1) - talk.askedAt.get(0)).isEqualTo(200_000_000L); // the period
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # a zero after a good frame leaves its CRC in agreement: only the length tells
            # reply,                              fault
            '01 03 06 02 2B 00 00 00 64 05 7A',   STRAY_ANSWER
            '11 04 06 02 2B 00 00 00 64 F9 8B',   BAD_CHECKSUM
            '11 03 06 02 2B 00 00 00 65 C8 BA',   BAD_CHECKSUM
            '11 03 06 02 2B 00 00 00 64 C8 BA 00',STRAY_ANSWER
            '11 03 06 02 2B 00 00 00 64',         PARTIAL
            '11 83 02 C1 34',                     REFUSED
            '',                                   NO_ANSWER
            """)
    void givenReplyThatIsNotTheAnswer_whenJudged_thenNothingIsRead(String reply, Fault fault)
            throws InputException, IOException {
        byte[] bytes = Hex.bytes(reply);
        Conversation talk = new Conversation(
                        three(), (q, n) -> bytes.length == 0 ? List.of() : Conversation.after(20, bytes))
                .run(2 * SECOND);

        assertThat(talk.log.readings).isEmpty();
        assertThat(talk.log.faults).containsKey(fault);
    }

    @Test
    void givenPublishedFrames_whenJudged_thenTheirCrcAgreesAndTheWrongOneIsRejected() {
        // the last one circulates with the CRC of the unit-17 frame pasted on unit 1
        for (String good : List.of(
                "11 03 00 6B 00 03 76 87",
                "11 03 06 02 2B 00 00 00 64 C8 BA",
                "11 03 06 AE 41 56 52 43 40 49 AD",
                "01 03 00 6B 00 03 74 17",
                "01 03 06 02 2B 00 00 00 64 05 7A",
                "01 04 00 08 00 01 B0 08",
                "01 04 02 00 0A 39 37",
                "11 06 00 01 00 03 9A 9B",
                "01 83 02 C0 F1",
                "01 03 00 00 00 02 C4 0B",
                "01 03 04 00 06 00 05 DA 31")) {
            byte[] frame = Hex.bytes(good);
            assertThat(Crc.modbus().of(frame, 0, frame.length - 2))
                    .as(good)
                    .isEqualTo(WordOrder.LITTLE.bits(frame, frame.length - 2, 2));
        }
        byte[] wrong = Hex.bytes("01 03 00 6B 00 03 76 87");
        assertThat(Crc.modbus().of(wrong, 0, 6)).isNotEqualTo(WordOrder.LITTLE.bits(wrong, 6, 2));
    }

    @Test
    void givenUnit17ReplyWithItsCrcOnUnit1_whenJudged_thenItIsRejected() throws InputException, IOException {
        byte[] wrong = REPLY.clone();
        wrong[0] = 1;
        Conversation talk = new Conversation(three(), (q, n) -> Conversation.after(20, wrong)).run(SECOND);

        assertThat(talk.log.readings).isEmpty();
        assertThat(talk.log.faults).containsKey(Fault.BAD_CHECKSUM);
    }

    @Test
    void givenInputRegister_whenPolled_thenThePublishedPairIsExchanged() throws InputException, IOException {
        Driver driver = DriverCatalog.shipped().find("modbus-rtu?unit-id=1&table=input&register=8");
        Conversation talk = new Conversation(driver, (q, n) -> Conversation.after(5, Hex.bytes("01 04 02 00 0A 39 37")))
                .run(SECOND);

        assertThat(Hex.text(talk.asked.get(0))).isEqualTo("01 04 00 08 00 01 B0 08");
        assertThat(talk.log.readings).contains("0: 10 Pa");
    }

    @Test
    void givenReplyInPieces_whenCutAnywhere_thenItIsRead() throws InputException, IOException {
        Driver driver = three();
        for (int cut = 1; cut < REPLY.length; cut++) {
            for (long gap : List.of(0L, 1L, 30L, 300L)) {
                int at = cut;
                Conversation talk =
                        new Conversation(driver, (q, n) -> Conversation.cut(10, REPLY, at, gap)).run(SECOND * 3 / 2);
                assertThat(talk.log.readings).startsWith("0: 555 Pa", "1: 0 Pa", "2: 100 Pa");
                assertThat(talk.log.faults).isEmpty();
            }
        }
    }

    @Test
    void givenLateReply_whenItComesWithinTheQuietTime_thenItIsNoOnesAnswer() throws InputException, IOException {
        // the time-out is 1 s: the first reply comes at 1.3 s with 555, all later ones in time with 6
        byte[] later = withCrc("11 03 06 00 06 00 00 00 64");
        Conversation talk = new Conversation(
                        three(), (q, n) -> n == 0 ? Conversation.after(1300, REPLY) : Conversation.after(10, later))
                .run(4 * SECOND);

        assertThat(talk.log.readings).doesNotContain("0: 555 Pa").contains("0: 6 Pa");
        assertThat(talk.log.faults).containsEntry(Fault.NO_ANSWER, 1).containsEntry(Fault.STRAY_ANSWER, 1);
        assertThat(talk.askedAt.get(1) - talk.askedAt.get(0)).isGreaterThanOrEqualTo(1_800_000_000L);
    }

    private static byte[] withCrc(String hex) {
        byte[] body = Hex.bytes(hex);
        byte[] out = java.util.Arrays.copyOf(body, body.length + 2);
        long crc = Crc.modbus().of(body, 0, body.length);
        out[body.length] = (byte) crc;
        out[body.length + 1] = (byte) (crc >> 8);
        return out;
    }

    @Test
    void givenFarRegisters_whenPolled_thenEachReadingComesFromItsOwnAnswer() throws InputException, IOException {
        Driver driver = driver("", reading("a", 107) + reading("far", 500));
        Conversation talk = new Conversation(
                        driver,
                        (q, n) -> Conversation.after(5, withCrc(q[3] == 0x6B ? "11 03 02 00 01" : "11 03 02 00 02")))
                .run(SECOND);

        assertThat(talk.log.readings).startsWith("0: 1 Pa", "1: 2 Pa", "0: 1 Pa", "1: 2 Pa");
    }

    @Test
    void givenGapThatMayBeJoined_whenPolled_thenOneQuestionSpansIt() throws InputException, IOException {
        Driver driver = driver("join-gap = 1", reading("a", 107) + reading("b", 109));
        Conversation talk = new Conversation(driver, (q, n) -> Conversation.after(5, REPLY)).run(SECOND);

        assertThat(talk.log.readings).startsWith("0: 555 Pa", "1: 100 Pa");
    }

    @Test
    void givenDiscreteInputs_whenPolled_thenContactsAreRead() throws InputException, IOException {
        String contact = "[[reading]]\nname = \"%s\"\nunit = \"1\"\ntable = \"discrete\"\nregister = %d\n";
        Driver driver = driver("", contact.formatted("x", 3) + contact.formatted("y", 4));
        Conversation talk =
                new Conversation(driver, (q, n) -> Conversation.after(5, withCrc("11 02 01 02"))).run(SECOND);

        assertThat(Hex.text(talk.asked.get(0))).startsWith("11 02 00 03 00 02");
        assertThat(talk.log.readings).startsWith("0: 0 1", "1: 1 1");
    }

    @Test
    void givenRefusal_whenJudged_thenTheNextQuestionDoesNotWaitForQuiet() throws InputException, IOException {
        Driver driver = driver("", reading("a", 107) + reading("far", 500));
        Conversation talk = new Conversation(
                        driver, (q, n) -> Conversation.after(5, withCrc(q[3] == 0x6B ? "11 83 02" : "11 03 02 00 02")))
                .run(SECOND);

        assertThat(talk.log.readings).startsWith("1: 2 Pa", "1: 2 Pa", "1: 2 Pa");
        assertThat(talk.askedAt.get(1) - talk.askedAt.get(0)).isLessThan(20_000_000L);
    }

    @Test
    void givenChatter_whenItNeverStops_thenNothingIsAskedAndAllIsCounted() throws InputException, IOException {
        Conversation talk = new Conversation(three(), (q, n) -> List.of());
        IntStream.range(0, 100).forEach(i -> talk.unasked(i * 100_000_000L, new byte[50]));
        talk.run(10 * SECOND - 1);

        assertThat(talk.asked).isEmpty();
        assertThat(talk.log.bytes).isEqualTo(5000);
    }

    @Test
    void givenAnswerOnItsWay_whenRestartedInStep_thenItIsStillTheAnswer() throws InputException, IOException {
        Decoder decoder = three().newDecoder();
        DecodeLog log = new DecodeLog();
        decoder.restart(0);
        assertThat(decoder.due(SECOND, log)).isPresent();
        decoder.restartInStep(SECOND + 1);
        decoder.decode(new draftwitness.reading.Chunk(REPLY, 0, REPLY.length, SECOND + 1), log);
        decoder.due(2 * SECOND, log);

        assertThat(log.readings).containsExactly("0: 555 Pa", "1: 0 Pa", "2: 100 Pa");
    }

    /**
     * t3.5 by "MODBUS over Serial Line Specification and Implementation Guide V1.02", section 2.5.1.1: 11-bit
     * characters, fixed above 19200 baud.
     */
    @ParameterizedTest
    @CsvSource({"1200, 32083.3", "9600, 4010.4", "19200, 2005.2", "38400, 1750", "115200, 1750"})
    void givenBaud_whenSilenceIsComputed_thenItIsThreeAndAHalfCharacters(int baud, double micros) {
        assertThat(ModbusDecoder.silenceNanos(baud) / 1000.0).isCloseTo(micros, within(micros * 0.001));
    }

    @Test
    void givenRandomInput_whenDecoded_thenNothingIsThrownOrLost() throws InputException, IOException {
        Driver driver = driver(
                "period = 0.001\ntimeout = 0.01\nquiet = 0.001\nbaud = 115200",
                reading("a", 107) + reading("b", 108) + reading("c", 109));

        DecodeLog log = RandomCases.feed(driver, 5, 1_000_000, 256, List.of(REPLY, Hex.bytes("11 83 02 C1 34")));

        DecodeLog heard = RandomCases.feed(
                driver.newListener(),
                10,
                1_000_000,
                512,
                List.of(REPLY, Hex.bytes("11 03 00 6B 00 03 76 87")),
                List.of(""));
        assertThat(heard.readings)
                .isNotEmpty()
                .allMatch(r -> List.of("0: 555 Pa", "1: 0 Pa", "2: 100 Pa").contains(r));
        assertThat(log.faults).containsKeys(Fault.STRAY_ANSWER, Fault.NO_ANSWER, Fault.BAD_CHECKSUM);
        assertThat(log.readings)
                .allMatch(r -> List.of("0: 555 Pa", "1: 0 Pa", "2: 100 Pa").contains(r));
    }
}
