package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ContactDecoderTest {
    @TempDir
    Path folder;

    private static void give(Decoder decoder, DecodeLog log, String endpoint, byte[] bytes) {
        decoder.decode(new Chunk(bytes, 0, bytes.length, 1, endpoint), log);
    }

    @Test
    void givenControlLine_whenItChanges_thenTheContactIsRead() throws InputException {
        Driver driver = DriverCatalog.shipped().find("contact-line?line=dsr");
        Decoder decoder = driver.newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, "DSR", new byte[] {1});
        give(decoder, log, "DSR", new byte[] {0});
        give(decoder, log, "CTS", new byte[] {1});
        give(decoder, log, "", new byte[] {1, 2});

        assertThat(log.readings).containsExactly("0: 1 1", "0: 0 1");
        assertThat(log.bytes).isEqualTo(5);
        assertThat(driver.controlLines()).containsExactly("DSR");
        assertThat(driver.readings()).containsExactly(new ReadingSpec("contact", Unit.CONTACT));
    }

    @Test
    void givenInvertedLine_whenAsserted_thenTheContactIsOpen() throws InputException {
        Decoder decoder =
                DriverCatalog.shipped().find("contact-line?inverted=true").newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, "CTS", new byte[] {1});

        assertThat(log.readings).containsExactly("0: 0 1");
    }

    @Test
    void givenContactBesideAPressure_whenBothCome_thenEachIsRead() throws InputException, IOException {
        Path file = Files.writeString(folder.resolve("mine.toml"), """
                title = "t"
                kind = "line"
                [[reading]]
                name = "pressure"
                unit = "Pa"
                [[contact]]
                name = "switch"
                line = "dcd"
                """);
        Driver driver = DriverCatalog.fromFile(file.toString());
        Decoder decoder = driver.newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, "", "\n-3".getBytes(StandardCharsets.US_ASCII));
        give(decoder, log, "DCD", new byte[] {1});
        give(decoder, log, "", "12.4\n".getBytes(StandardCharsets.US_ASCII));

        assertThat(driver.readings()).extracting(ReadingSpec::name).containsExactly("pressure", "switch");
        assertThat(log.readings).containsExactly("1: 1 1", "0: -312.4 Pa");
    }

    @Test
    void givenNoContact_whenRead_thenTheDescriptionIsRefused() throws IOException {
        Path file = Files.writeString(folder.resolve("mine.toml"), "title = \"t\"\nkind = \"control-line\"\n");
        assertThatThrownBy(() -> DriverCatalog.fromFile(file.toString()))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("at least one [[contact]] is needed");
    }
}
