package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Decimal;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FrameDecoderTest {
    @TempDir
    Path folder;

    // sync AA 55, int16 little endian, sum of bytes 2..3
    private static final String ONE = "AA 55 CC F3 BF"; // -312.4 Pa: 0xCC + 0xF3 = 0x1BF
    private static final String TWO = "AA 55 9C FF 9B"; // -10.0 Pa: 0x9C + 0xFF = 0x19B

    private Driver load(String text) throws InputException, IOException {
        Path file = Files.writeString(folder.resolve("mine.toml"), "title = \"t\"\nkind = \"frame\"\n" + text);
        return DriverCatalog.fromFile(file.toString());
    }

    private static String reading(int at) {
        return "[[reading]]\nname = \"p\"\nunit = \"Pa\"\nat = " + at + "\n";
    }

    private static Driver shipped(String parameters) throws InputException {
        return DriverCatalog.shipped().find("binary-frame" + parameters);
    }

    @Test
    void givenTwoMessagesInOneChunk_whenDecoded_thenBothAreRead() throws InputException {
        DecodeLog log = Chunking.decode(shipped(""), Hex.bytes(ONE + TWO));

        assertThat(log.events).containsExactly("0: -312.4 Pa", "message 5", "0: -10.0 Pa", "message 5");
    }

    @Test
    void givenNoiseBeforeAndHalfAMessageAfter_whenDecoded_thenTheWholeOnesAreRead() throws InputException {
        DecodeLog log = Chunking.decode(shipped(""), Hex.bytes("00 AA AA 13" + ONE + "55 F3 BF" + TWO + "AA 55 CC"));

        assertThat(log.readings).containsExactly("0: -312.4 Pa", "0: -10.0 Pa");
        assertThat(log.events).startsWith("NOISE 4");
    }

    @Test
    void givenWrongChecksum_whenAMessageHidesBehindTheFalseStart_thenItIsFound() throws InputException {
        DecodeLog log = Chunking.decode(shipped(""), Hex.bytes("AA 55 CC" + ONE + TWO));

        assertThat(log.readings).containsExactly("0: -312.4 Pa", "0: -10.0 Pa");
        assertThat(log.faults).containsEntry(Fault.BAD_CHECKSUM, 1);
    }

    @Test
    void givenNoChecksum_whenAByteIsLost_thenNoShiftedNumberIsRead() throws InputException {
        Driver driver = shipped("?checksum=none&length=4");
        DecodeLog log = Chunking.decode(driver, Hex.bytes("AA 55 CC F3  AA 55 F3  AA 55 9C FF  AA 55 01 00  AA 55"));

        assertThat(log.readings).containsExactly("0: -312.4 Pa", "0: -10.0 Pa", "0: 0.1 Pa");
    }

    @Test
    void givenNoChecksum_whenTheNextSyncConfirms_thenTheArrivalIsStillThatOfTheLastByte() throws InputException {
        DecodeLog log =
                Chunking.run(shipped("?checksum=none&length=4"), List.of(Hex.bytes("AA 55 CC F3"), Hex.bytes("AA 55")));

        assertThat(log.arrivals).containsExactly(1_000_000L);
    }

    @Test
    void givenCrc16_whenDecoded_thenOnlyMessagesThatAgreeAreRead() throws InputException {
        // over F3 CC in CRC-16/MODBUS order as sent, low byte first
        byte[] body = Hex.bytes("AA 55 CC F3");
        long crc = Crc.modbus().of(body, 2, 4);
        byte[] good = Hex.bytes(
                "AA 55 CC F3 " + String.format("%02X %02X", crc & 0xFF, crc >> 8) + " AA 55 CC F3 00 00" + "00");
        DecodeLog log = Chunking.decode(shipped("?checksum=crc&crc=crc-16/modbus&length=6"), good);

        assertThat(log.readings).containsExactly("0: -312.4 Pa");
        assertThat(log.faults).containsEntry(Fault.BAD_CHECKSUM, 1);
    }

    @Test
    void givenLengthField_whenTypesDiffer_thenEachMessageCarriesItsOwnReadings() throws InputException, IOException {
        Driver driver = load("""
                [frame]
                sync = [0x7E]
                length-at = 1
                length-add = 3
                order = "big"
                counter = { at = 3, type = "uint8" }
                [checksum]
                method = "xor"
                [[reading]]
                name = "draft"
                unit = "Pa"
                at = 4
                scale = 0.1
                when = { at = 2, value = 1 }
                [[reading]]
                name = "contact"
                unit = "1"
                at = 4
                type = "uint8"
                bit = 0
                when = { at = 2, value = 2 }
                """);
        byte[] bytes =
                Hex.bytes("7E 04 01 07 F3 CC" + xor("7E 04 01 07 F3 CC") + "7E 03 02 08 01" + xor("7E 03 02 08 01"));
        DecodeLog log = Chunking.decode(driver, bytes);

        assertThat(log.events)
                .containsExactly(
                        "counter 7 of 8 bits",
                        "0: -312.4 Pa",
                        "message 7",
                        "counter 8 of 8 bits",
                        "1: 1 1",
                        "message 6");
    }

    private static String xor(String hex) {
        int x = 0;
        for (byte b : Hex.bytes(hex)) {
            x ^= b & 0xFF;
        }
        return String.format("%02X", x);
    }

    @Test
    void givenSlip_whenDecoded_thenEscapesEmptyPacketsAndBrokenOnesAreHandled() throws InputException, IOException {
        Driver driver = load("""
                [frame]
                wrapping = "slip"
                length = 3
                [checksum]
                method = "sum"
                complement = "twos"
                [[reading]]
                name = "p"
                unit = "Pa"
                at = 0
                type = "int16"
                """);
        // C0 FF is -64 little endian; two's complement of its sum 0x1BF is 41
        DecodeLog log = Chunking.decode(
                driver, Hex.bytes("41 C0 C0 DB DC FF 41 C0 DB 01 FF 41 C0 01 00 FF C0 01 00 C0 01 00 00 C0"));

        assertThat(log.readings).containsExactly("0: -64 Pa", "0: 1 Pa");
        assertThat(log.events)
                .containsExactly(
                        "PARTIAL 2",
                        "filler 1",
                        "0: -64 Pa",
                        "message 5",
                        "GARBLED 5",
                        "0: 1 Pa",
                        "message 4",
                        "PARTIAL 3",
                        "BAD_CHECKSUM 4");
    }

    @Test
    void givenCobs_whenDecoded_thenReadingsComeOut() throws InputException, IOException {
        Driver driver = load("""
                [frame]
                wrapping = "cobs"
                length = 4
                order = "big"
                [[reading]]
                name = "p"
                unit = "Pa"
                at = 0
                type = "int32"
                """);
        // 11 22 00 33 -> 03 11 22 02 33 (Cheshire and Baker's rule)
        DecodeLog log = Chunking.decode(driver, Hex.bytes("02 33 00 03 11 22 02 33 00 03 11 22 00"));

        assertThat(log.readings).containsExactly("0: " + 0x11220033 + " Pa");
        assertThat(log.events).endsWith("PARTIAL 4");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # parameters in the description                                                  | check of 31..39
            method = "crc";width = 16;poly = 0x1021;init = 0xFFFF                              | 29 B1
            method = "crc";name = "crc-16/ibm-3740"                                            | 29 B1
            method = "crc";width = 16;poly = 0x8005;reflect-in = true;reflect-out = true       | BB 3D
            method = "crc";width = 32;poly = 0x04C11DB7;init = 0xFFFFFFFF;reflect-in = true;reflect-out = true;xor-out = 0xFFFFFFFF | CB F4 39 26
            method = "crc";width = 8;poly = 7                                                  | F4
            method = "sum"                                                                     | DD
            method = "sum";width = 16                                                          | 01 DD
            method = "sum";complement = "twos"                                                 | 23
            method = "sum";complement = "ones"                                                 | 22
            method = "xor"                                                                     | 31
            """)
    void givenChecksumByParameters_whenTheCheckTextIsSent_thenItAgrees(String keys, String check)
            throws InputException, IOException {
        // CRCs: RevEng catalogue; sum 0x31 + ... + 0x39 = 0x1DD and its complements, exclusive-or 0x31, by hand
        byte[] bytes = Hex.bytes("31 32 33 34 35 36 37 38 39 " + check.strip());
        String text = "[frame]\nlength = " + bytes.length + "\norder = \"big\"\n[checksum]\n" + keys.replace(';', '\n')
                + "\n" + reading(0);

        assertThat(Chunking.decode(load(text), bytes).readings).containsExactly("0: " + 0x3132 + " Pa");
        bytes[4] ^= 1;
        assertThat(Chunking.decode(load(text), bytes).readings).isEmpty();
    }

    @Test
    void givenNothingThatTellsTheStart_whenRead_thenTheDescriptionIsRefused() {
        assertThatThrownBy(() -> load("[frame]\nlength = 2\n" + reading(0)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("mine.toml:3: [frame] nothing tells where a message begins");
        assertThatThrownBy(() -> load("[frame]\nsync = [1]\nlength = 2\n" + reading(1)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("mine.toml:9: reading.at: the number does not fit");
    }

    @Test
    void givenRandomInput_whenDecoded_thenNothingIsThrownOrLost() throws InputException, IOException {
        List<byte[]> good = List.of(Hex.bytes(ONE), Hex.bytes(TWO));

        assertThat(RandomCases.feed(shipped(""), 2, 1_000_000, 600, good).readings)
                .isNotEmpty();
        Driver variable = load("[frame]\nsync = [0xAA]\nlength-at = 1\nlongest = 60\n" + reading(-2));
        assertThat(RandomCases.feed(variable, 3, 300_000, 200, List.of(Hex.bytes("AA 05 00 01 02 AA"))).readings)
                .isNotEmpty();
    }

    @Test
    void givenRandomWrappedInput_whenDecoded_thenNothingIsThrownOrLost() throws InputException, IOException {
        for (String wrapping : List.of("slip", "cobs")) {
            Driver driver = load("[frame]\nwrapping = \"" + wrapping + "\"\nlength = 3\n" + reading(1));
            List<byte[]> good = List.of(Hex.bytes("01 DB DC 03 C0"), Hex.bytes("02 01 02 02 00"));
            assertThat(RandomCases.feed(driver, 4, 1_000_000, 1100, good).readings)
                    .isNotEmpty();
        }
    }

    @Test
    void givenDamagedStream_whenDecoded_thenItIsReadAsAPlainScanWouldReadIt() throws InputException {
        byte[] stream = new RandomCases(22, List.of(Hex.bytes(ONE), Hex.bytes(TWO))).stream(100_000);
        List<String> scanned = new ArrayList<>();
        for (int i = 0; i + 5 <= stream.length; i++) {
            int low = stream[i + 2] & 0xFF;
            boolean whole = (stream[i] & 0xFF) == 0xAA
                    && stream[i + 1] == 0x55
                    && ((low + stream[i + 3]) & 0xFF) == (stream[i + 4] & 0xFF);
            if (whole) {
                scanned.add("0: " + new Decimal(stream[i + 3] * 256 + low, 1) + " Pa");
                i += 4;
            }
        }

        assertThat(Chunking.run(shipped(""), List.of(stream)).readings)
                .hasSizeGreaterThan(10_000)
                .isEqualTo(scanned);
    }
}
