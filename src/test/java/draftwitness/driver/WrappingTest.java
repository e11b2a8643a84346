package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WrappingTest {

    private static String unwrap(Wrapping wrapping, byte[] wire) {
        byte[] out = new byte[wire.length + 1];
        int n = wrapping.unwrap(wire, wire.length, out);
        return n < 0 ? "wrong" : Hex.text(Arrays.copyOf(out, n));
    }

    /**
     * Test vectors of the cobs-python library's test file and of Cheshire and Baker's algorithm, IEEE/ACM Transactions
     * on Networking 7(2), 1999.
     */
    @ParameterizedTest
    @CsvSource(textBlock = """
            # wire,                            data
            '01',                              ''
            '01 01',                           '00'
            '01 01 01',                        '00 00'
            '01 02 11 01',                     '00 11 00'
            '03 11 22 02 33',                  '11 22 00 33'
            '05 11 22 33 44',                  '11 22 33 44'
            '02 11 01 01 01',                  '11 00 00 00'
            '06 31 32 33 34 35 05 36 37 38 39','31 32 33 34 35 00 36 37 38 39'
            '00',                              'wrong'
            '05 31 32 33',                     'wrong'
            '05 31 32 33 34 00',               'wrong'
            '05 31 32 00 34',                  'wrong'
            """)
    void givenCobs_whenUnwrapped_thenPublishedDataComesOut(String wire, String data) {
        assertThat(unwrap(Wrapping.COBS, Hex.bytes(wire))).isEqualTo(data);
    }

    @Test
    void givenLongestCobsRuns_whenUnwrapped_thenNoZeroIsAdded() {
        byte[] run = new byte[255]; // FF 01..FE: cobs-python test file
        run[0] = (byte) 0xFF;
        for (int i = 1; i < 255; i++) {
            run[i] = (byte) i;
        }
        assertThat(unwrap(Wrapping.COBS, run)).isEqualTo(Hex.text(Arrays.copyOfRange(run, 1, 255)));
        byte[] longer = Arrays.copyOf(run, 257);
        longer[255] = 2;
        longer[256] = (byte) 0xFF;
        assertThat(unwrap(Wrapping.COBS, longer)).isEqualTo(Hex.text(Arrays.copyOfRange(run, 1, 255)) + " FF");
        byte[] last = new byte[257]; // FF 02..FF 01 01: data 02..FF 00
        last[0] = (byte) 0xFF;
        for (int i = 1; i < 255; i++) {
            last[i] = (byte) (i + 1);
        }
        last[255] = 1;
        last[256] = 1;
        assertThat(unwrap(Wrapping.COBS, last)).isEqualTo(Hex.text(Arrays.copyOfRange(last, 1, 255)) + " 00");
    }

    /** RFC 1055 (1988): C0 -> DB DC, DB -> DB DD; the worked packet is from a published column on SLIP. */
    @ParameterizedTest
    @CsvSource(textBlock = """
            # wire,                       data
            '1E DB DC 80 7F 02 DB DD 08', '1E C0 80 7F 02 DB 08'
            '',                           ''
            'DB',                         'wrong'
            'DB 00',                      'wrong'
            """)
    void givenSlip_whenUnwrapped_thenPublishedDataComesOut(String wire, String data) {
        assertThat(unwrap(Wrapping.SLIP, Hex.bytes(wire))).isEqualTo(data);
    }

    @Test
    void givenRandomData_whenWrappedAndUnwrapped_thenItIsTheSame() {
        Random random = new Random(12);
        for (int i = 0; i < 20_000; i++) {
            byte[] data = new byte[random.nextInt(600)];
            random.nextBytes(data);
            for (int k = 0; k < data.length; k++) {
                if (random.nextInt(3) == 0) {
                    data[k] = (byte) new int[] {0, 0xC0, 0xDB, 1}[random.nextInt(4)];
                }
            }
            assertThat(unwrap(Wrapping.COBS, cobs(data))).as("case " + i).isEqualTo(Hex.text(data));
            assertThat(unwrap(Wrapping.SLIP, slip(data))).as("case " + i).isEqualTo(Hex.text(data));
        }
    }

    /** Runs of up to 254 bytes without zero, each after its length plus one; a zero follows all but full runs. */
    private static byte[] cobs(byte[] data) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        int at = 0;
        boolean more = true;
        while (more) {
            int n = 0;
            while (n < 254 && at + n < data.length && data[at + n] != 0) {
                n++;
            }
            out.write(n + 1);
            out.write(data, at, n);
            at += n;
            boolean zero = n < 254 && at < data.length;
            at += zero ? 1 : 0;
            more = zero || at < data.length;
        }
        return out.toByteArray();
    }

    private static byte[] slip(byte[] data) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (byte b : data) {
            switch (b & 0xFF) {
                case 0xC0 -> out.writeBytes(Hex.bytes("DB DC"));
                case 0xDB -> out.writeBytes(Hex.bytes("DB DD"));
                default -> out.write(b);
            }
        }
        return out.toByteArray();
    }
}
