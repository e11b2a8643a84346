package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Random;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChecksumTest {
    private static final byte[] CHECK = "123456789".getBytes(StandardCharsets.US_ASCII);

    /** "check" column of the RevEng catalogue of parametrised CRC algorithms: the CRC of the ASCII text 123456789. */
    @ParameterizedTest
    @CsvSource(textBlock = """
            # name,            check
            crc-16/modbus,     4B37
            crc-16/ibm-3740,   29B1
            crc-16/xmodem,     31C3
            crc-16/kermit,     2189
            crc-16/ibm-sdlc,   906E
            crc-16/arc,        BB3D
            crc-8/smbus,       F4
            crc-8/nrsc-5,      F7
            crc-8/maxim-dow,   A1
            crc-32/iso-hdlc,   CBF43926
            crc-32/iscsi,      E3069283
            """)
    void givenCatalogueParameters_whenCheckTextIsSummed_thenItIsThePublishedCheck(String name, String check) {
        Crc crc = Objects.requireNonNull(Checksum.named(name));

        assertThat(crc.of(CHECK, 0, CHECK.length)).isEqualTo(Long.parseLong(check, 16));
    }

    @Test
    void givenHumiditySensorExample_whenSummed_thenItIs92() {
        // BE EF -> 92, the example that data sheets of digital pressure and humidity sensors give (common practice)
        assertThat(Objects.requireNonNull(Checksum.named("crc-8/nrsc-5")).of(Hex.bytes("BE EF"), 0, 2))
                .isEqualTo(0x92);
    }

    @Test
    void givenSerialLineGuideExample_whenSummed_thenItIs1241() {
        // MODBUS over Serial Line Specification and Implementation Guide V1.02, CRC example: 02 07 -> 1241
        assertThat(Crc.modbus().of(Hex.bytes("02 07"), 0, 2)).isEqualTo(0x1241);
    }

    @Test
    void givenRandomBytes_whenSummed_thenTheJdksCrc32Agrees() {
        Random random = new Random(7);
        Crc crc = Objects.requireNonNull(Checksum.named("crc-32/iso-hdlc"));
        for (int i = 0; i < 1000; i++) {
            byte[] bytes = new byte[random.nextInt(50)];
            random.nextBytes(bytes);
            CRC32 jdk = new CRC32();
            jdk.update(bytes);
            assertThat(crc.of(bytes, 0, bytes.length)).isEqualTo(jdk.getValue());
        }
    }
}
