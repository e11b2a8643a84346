package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import draftwitness.reading.Decimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LineDecoderTest {
    private final DriverCatalog catalog = DriverCatalog.shipped();

    private Driver driver(String spec) throws InputException {
        return catalog.find(spec);
    }

    @Test
    void givenHeadlessLine_whenOpened_thenItIsNotTakenForAWholeOne() throws InputException {
        DecodeLog log = Chunking.decode(driver("ascii-line"), "34\r\n-1.234\r\n");

        assertThat(log.readings).containsExactly("0: -1.234 Pa");
        assertThat(log.events).startsWith("PARTIAL 3", "filler 1");
    }

    @Test
    void givenLinkOpenedAgain_whenRestOfALineComes_thenItIsDropped() throws InputException {
        Decoder decoder = driver("ascii-line").newDecoder();
        DecodeLog log = new DecodeLog();
        feed(decoder, "\n-1.0\n-1.2", log);
        decoder.restart(5);
        feed(decoder, "34\n-1.5\n", log);

        assertThat(log.readings).containsExactly("0: -1.0 Pa", "0: -1.5 Pa");
        assertThat(decoder.held()).isZero();
    }

    private static void feed(Decoder decoder, String text, DecodeLog log) {
        byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
        decoder.decode(new draftwitness.reading.Chunk(bytes, 0, bytes.length, 1), log);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # line,               reading
            '-312.4',             '0: -312.4 Pa'
            '-312.40',            '0: -312.40 Pa'
            '+ 12.5 Pa',          '0: 12.5 Pa'
            '  -0.952 in. W.C. ', '0: -0.952 inH2O'
            '"-0.1 inH2O_60F"',   ''
            '-0.1 inH2O_60F',     '0: -0.1 inH2O_60F'
            '1.5e-1kPa',          '0: 0.15 kPa'
            '> -7',               '0: -7 Pa'
            '.5',                 '0: 0.5 Pa'
            '-',                  ''
            '1.2.3',              ''
            '12-',                ''
            '12 degC',            ''
            '12 furlong',         ''
            '-0.00249 bar',       '0: -2.49 mbar'
            '-3 bar',             '0: -3000 mbar'
            '-1.25 cmH2O',        '0: -12.5 mmH2O'
            '9e18 bar',           ''
            '-312,4',             ''
            '0x12',               ''
            '12 34',              ''
            '9.91E37',            ''
            '-9.9E37',            ''
            """)
    void givenLine_whenDecoded_thenOnlyWhatItSaysBecomesAReading(String line, String reading) throws InputException {
        DecodeLog log = Chunking.decode(driver("ascii-line"), "\n" + line + "\r\n");

        assertThat(log.readings).isEqualTo(reading.isEmpty() ? List.of() : List.of(reading));
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # line,      fault
            'abc',       NOT_A_READING
            '12 degC',   UNKNOWN_UNIT
            '12 cubits', UNKNOWN_UNIT
            'OL',        OVER_RANGE
            '---',       NO_VALUE
            '9.91E37',   NO_VALUE
            '+9.9E37',   OVER_RANGE
            '-9.9E37',   OVER_RANGE
            """)
    void givenLineWithoutReading_whenDecoded_thenTheFaultSaysWhy(String line, Fault fault) throws InputException {
        DecodeLog log = Chunking.decode(driver("ascii-line"), "\n" + line + "\n-5\n");

        assertThat(log.faults).containsKey(fault);
        assertThat(log.readings).containsExactly("0: -5 Pa");
    }

    @Test
    void givenTrueMinusSign_whenDecoded_thenTheLineIsDroppedAndNotMadePositive() throws InputException {
        byte[] bytes = "\n\u221212.5\n-12.6\n".getBytes(StandardCharsets.UTF_8);

        assertThat(Chunking.decode(driver("ascii-line"), bytes).readings).containsExactly("0: -12.6 Pa");
    }

    @Test
    void givenIdleFillBetweenLines_whenDecoded_thenItCostsNothing() throws InputException {
        DecodeLog log = Chunking.decode(driver("ascii-line"), "\n\0\0\u00ff\u0011-1.0\r\n\r\n \u0013\n\u00ff-2.0\n>\n");

        assertThat(log.readings).containsExactly("0: -1.0 Pa", "0: -2.0 Pa");
        assertThat(log.faults).containsOnlyKeys(Fault.PARTIAL, Fault.GARBLED);
    }

    @Test
    void givenFlippedBitThatMakesFlowControlOfADigit_whenDecoded_thenTheLineIsDropped() throws InputException {
        // "-312.4" whose 1 (0x31) became XON (0x11): without it the line would read -32.4
        DecodeLog log = Chunking.decode(driver("ascii-line"), "\n-3\u00112.4\n-312.4\n");

        assertThat(log.readings).containsExactly("0: -312.4 Pa");
        assertThat(log.faults).containsEntry(Fault.GARBLED, 1);
    }

    @Test
    void givenEndlessLine_whenDecoded_thenItIsDroppedThroughTheNextEnd() throws InputException {
        DecodeLog log = Chunking.decode(driver("ascii-line"), "\n" + "1".repeat(700) + "\n-3.5\n");

        assertThat(log.readings).containsExactly("0: -3.5 Pa");
        assertThat(log.faults).containsEntry(Fault.TOO_LONG, 1);
    }

    @Test
    void givenCrLfDeclared_whenAMinusBecomesCr_thenNoPositiveValueIsRead() throws InputException {
        // one flipped bit makes CR (0x0D) out of the minus (0x2D)
        DecodeLog log = Chunking.decode(driver("ascii-line?end=crlf"), "\r\n\r312.4\r\n-312.5\r\n");

        assertThat(log.readings).containsExactly("0: -312.5 Pa");
    }

    @Test
    void givenDecimalComma_whenDeclared_thenItIsTheMarkAndThePointIsNot() throws InputException {
        Driver driver = driver("ascii-line?decimal-comma=true&unit=mbar");

        assertThat(Chunking.decode(driver, "\n-1,25\n-1.25\n").readings).containsExactly("0: -1.25 mbar");
    }

    @Test
    void givenTable_whenColumnsAreEmptyOrAbsent_thenTheOthersAreRead() throws InputException {
        Driver driver = driver("ascii-table?unit-3=1&unit=inH2O");
        DecodeLog log = Chunking.decode(driver, "\n-0.95, -1.20 ,1\n,-1.21\n,\n-0.9,x,1\n-0.9,-1.2,2\n");

        assertThat(log.readings).containsExactly("0: -0.95 inH2O", "1: -1.20 inH2O", "2: 1 1", "1: -1.21 inH2O");
        assertThat(log.faults).containsEntry(Fault.NOT_A_READING, 3);
    }

    @Test
    void givenTableByBlanks_whenAColumnIsLost_thenTheDeclaredCountCatchesIt() throws InputException {
        Driver driver = driver("ascii-table?separator=blanks&columns=3");

        assertThat(Chunking.decode(driver, "\n 1  2\t3 \n1 23\n").readings)
                .containsExactly("0: 1 Pa", "1: 2 Pa", "2: 3 Pa");
    }

    @Test
    void givenSimulatedHouse_whenEachLineNamesItsTap_thenReadingsGoWhereTheyBelong() throws InputException {
        Driver driver = driver("simulated-house");
        DecodeLog log = Chunking.decode(
                driver, "\ndraft.switch -312.4 Pa\ncontact.switch 1\nflame.current 2.10 uA\ndraft.roof 3 Pa\n");

        assertThat(log.readings)
                .containsExactly(
                        index(driver, "draft.switch") + ": -312.4 Pa",
                        index(driver, "contact.switch") + ": 1 1",
                        index(driver, "flame.current") + ": 2.10 uA");
        assertThat(log.faults).containsEntry(Fault.NOT_A_READING, 1);
    }

    private static int index(Driver driver, String name) {
        return driver.readings().stream().map(ReadingSpec::name).toList().indexOf(name);
    }

    @Test
    void givenLineInSeveralChunks_whenItEnds_thenItsArrivalIsThatOfItsEnd() throws InputException {
        DecodeLog log = Chunking.run(
                driver("ascii-line"),
                List.of("\n-1".getBytes(StandardCharsets.US_ASCII), "2\n".getBytes(StandardCharsets.US_ASCII)));

        assertThat(log.arrivals).containsExactly(2_000_000L);
    }

    @Test
    void givenRandomInput_whenDecoded_thenNothingIsThrownOrLost() throws InputException {
        List<byte[]> good = List.of(
                "-312.4 Pa\r\n".getBytes(StandardCharsets.US_ASCII), "1,2,,-4e1\n".getBytes(StandardCharsets.US_ASCII));

        DecodeLog log = RandomCases.feed(driver("ascii-table"), 1, 1_000_000, 300, good);

        assertThat(log.readings).isNotEmpty();
    }

    @Test
    void givenDamagedStream_whenDecoded_thenItIsReadAsAPlainRuleWouldReadIt() throws InputException {
        List<byte[]> good = List.of(
                "-312.4 Pa\r\n".getBytes(StandardCharsets.US_ASCII), "> 12.50\n".getBytes(StandardCharsets.US_ASCII));
        byte[] stream = new RandomCases(21, good).stream(100_000);

        DecodeLog log = Chunking.run(driver("ascii-line"), List.of(stream));

        assertThat(log.readings).hasSizeGreaterThan(15_000).isEqualTo(plainRule(stream));
    }

    /** A blank that became h or k makes another unit of pascals: text without a checksum cannot tell. */
    private static String unit(String text) {
        return text.isEmpty() || text.toLowerCase(Locale.ROOT).startsWith("p")
                ? " Pa"
                : " " + text.substring(0, 1).toLowerCase(Locale.ROOT) + "Pa";
    }

    /** The same rule written a second time: lines between line ends, each either wholly a number or nothing. */
    private static List<String> plainRule(byte[] stream) {
        String idleAndPrompt = "[\\x00\\x11\\x13\\xFF]*(?:[> ]*>)?[ \t]*";
        String number = "([-+]?)[ \t]*(\\d+\\.?\\d*|\\.\\d+)((?:[eE][-+]?\\d+)?)";
        String unit = "(?:(?:[ \t\"'][ \t.\"']*)?((?:[hHkK][ .\"']*)?[pP][ .\"']*[aA])[ .\"']*)?[ \t]*";
        Pattern line = Pattern.compile(idleAndPrompt + number + unit);
        List<String> out = new ArrayList<>();
        String[] lines = new String(stream, StandardCharsets.ISO_8859_1).split("[\r\n]", -1);
        for (int i = 1; i < lines.length - 1; i++) {
            Matcher matcher = line.matcher(lines[i]);
            if (lines[i].length() <= 256 && matcher.matches()) {
                Decimal.parse(matcher.group(1) + matcher.group(2) + matcher.group(3))
                        .ifPresent(d -> out.add("0: " + d + unit(matcher.group(4) == null ? "" : matcher.group(4))));
            }
        }
        return out;
    }
}
