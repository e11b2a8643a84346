package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SentenceDecoderTest {
    @TempDir
    Path folder;

    private static Driver shipped(String parameters) throws InputException {
        return DriverCatalog.shipped().find("nmea-xdr" + parameters);
    }

    @Test
    void givenPublishedTransducerSentence_whenDecoded_thenThePressureIsRead() throws InputException {
        // two transducers, 24.59 C and 1.02412 bar: an example published with a weather sensor's source
        DecodeLog log = Chunking.decode(shipped(""), "\n$WIXDR,C,24.59,C,TEMP,P,1.02412,B,BARO*5E\r\n");

        assertThat(log.readings).containsExactly("0: 1024.12 mbar");
        assertThat(log.faults).containsOnlyKeys(Fault.PARTIAL);
    }

    @Test
    void givenBarOrPascal_whenDecoded_thenAMinusMeansSuction() throws InputException {
        // type P with units B (bar) or P (pascal): NMEA 0183 XDR update table v4.11 (2019); sums computed by the rule
        DecodeLog log = Chunking.decode(shipped(""), "\n$WIXDR,P,-0.00249,B,DRAFT*0B\r\n$IIXDR,P,249.1,P,DP1*4B\r\n");

        assertThat(log.readings).containsExactly("0: -2.49 mbar", "0: 249.1 Pa");
    }

    @Test
    void givenNameOfTheTransducer_whenDecoded_thenOnlyThatOneIsRead() throws InputException {
        DecodeLog log =
                Chunking.decode(shipped("?id=DP1"), "\n$WIXDR,P,-0.00249,B,DRAFT*0B\r\n$IIXDR,P,249.1,P,DP1*4B\r\n");

        assertThat(log.readings).containsExactly("0: 249.1 Pa");
    }

    @Test
    void givenOtherSentencesNoiseAndDamage_whenDecoded_thenOnlyGoodOnesCount() throws InputException {
        String published = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\r\n";
        DecodeLog log = Chunking.decode(
                shipped(""),
                "\n" + published + published.replace("545.4", "545.5") + "x!$IIXDR,P,249.1,P,DP1*4B\r\n"
                        + "$IIXDR,P,249.1,P,DP1\r\n$IIXDR,P,249.1,P,DP1*4B\r\n$IIXDR,P,2");

        assertThat(log.readings).containsExactly("0: 249.1 Pa", "0: 249.1 Pa");
        assertThat(log.faults)
                .containsEntry(Fault.BAD_CHECKSUM, 2)
                .containsEntry(Fault.NOISE, 1)
                .containsEntry(Fault.PARTIAL, 1);
    }

    @Test
    void givenFieldByNumber_whenDecoded_thenItsUnitFieldCounts() throws InputException, IOException {
        Path file = Files.writeString(folder.resolve("mine.toml"), """
                title = "t"
                kind = "sentence"
                [sentence]
                type = "PDIF"
                [[reading]]
                name = "p"
                unit = "Pa"
                field = 2
                unit-field = 3
                """);
        String body = "PDIF,7,-0.95,inH2O";
        int x = body.chars().reduce(0, (a, b) -> a ^ b);
        DecodeLog log = Chunking.decode(
                DriverCatalog.fromFile(file.toString()), "\n$" + body + String.format("*%02X", x) + "\n");

        assertThat(log.readings).containsExactly("0: -0.95 inH2O");
    }

    @Test
    void givenRandomInput_whenDecoded_thenNothingIsThrownLostOrInvented() throws InputException {
        List<byte[]> good = List.of("$IIXDR,P,249.1,P,DP1*4B\r\n".getBytes(StandardCharsets.US_ASCII));

        DecodeLog log = RandomCases.feed(shipped(""), 7, 1_000_000, 300, good);

        // an eight-bit sum lets one damaged sentence in 256 pass at worst; here single damages never do
        assertThat(log.readings).isNotEmpty().allMatch(r -> r.equals("0: 249.1 Pa"));
    }
}
