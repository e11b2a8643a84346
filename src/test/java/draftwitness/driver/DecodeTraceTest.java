package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;

class DecodeTraceTest {
    private final DriverCatalog catalog = DriverCatalog.shipped();

    private DecodeTrace trace(String spec, byte[] bytes) throws InputException {
        return DecodeTrace.of(catalog.find(spec), bytes, "");
    }

    @Test
    void givenBinaryMessages_whenTraced_thenEveryByteHasItsFate() throws InputException {
        byte[] bytes = Hex.bytes("13 AA 55 CC F3 BF AA 55 CC F3 00 AA");

        assertThat(trace("binary-frame", bytes).lines(bytes))
                .containsExactly(
                        "000000  13                                               .                 skipped: bytes between messages",
                        "000001  AA 55 CC F3 BF                                   .U...             message: pressure -312.4 Pa",
                        "000001  AA 55                                            .U                  sync",
                        "000003  CC F3                                            ..                  pressure",
                        "000005  BF                                               .                   checksum",
                        "000006  AA                                               .                 skipped: checksum wrong",
                        "000007  55 CC F3 00 AA                                   U....             held: the rest of this message is missing");
    }

    @Test
    void givenText_whenTraced_thenTheFirstLineCountsToo() throws InputException {
        byte[] bytes = "-312.4 Pa\r\nOL\nabc\n-5".getBytes(StandardCharsets.US_ASCII);
        DecodeTrace trace = trace("ascii-line", bytes);

        assertThat(trace.rows())
                .extracting(r -> r.offset() + "+" + r.length() + " " + r.fate() + " " + r.what())
                .containsExactly(
                        "0+10 MESSAGE pressure -312.4 Pa",
                        "10+1 FILLER ",
                        "11+3 MESSAGE over range",
                        "14+4 SKIPPED not a reading",
                        "18+2 HELD the rest of this message is missing");
        assertThat(trace.readings()).isEqualTo(1);
        assertThat(trace.bytes(DecodeTrace.Fate.SKIPPED)).isEqualTo(4);
    }

    @Test
    void givenModbusTraffic_whenTraced_thenQuestionsAndAnswersAreToldApart() throws InputException {
        // read one input register of unit 1: MODBUS Application Protocol Specification V1.1b3, section 6.4
        byte[] bytes = Hex.bytes("00 01 04 00 08 00 01 B0 08 01 04 02 00 0A 39 37 01 84 02 C2 C1");
        DecodeTrace trace = trace("modbus-rtu?table=input&register=8", bytes);

        assertThat(trace.rows())
                .extracting(r -> r.offset() + "+" + r.length() + " " + r.fate() + " " + r.what())
                .containsExactly(
                        "0+1 SKIPPED bytes between messages",
                        "1+8 FILLER ",
                        "9+7 MESSAGE pressure 10 Pa",
                        "16+5 SKIPPED request refused");
        assertThat(trace.rows().get(2).parts())
                .contains(new DecodeTrace.Part(12, 2, "pressure"), new DecodeTrace.Part(14, 2, "checksum"));
    }

    @Test
    void givenBluetoothValue_whenTraced_thenTheFirstCharacteristicIsTaken() throws InputException {
        assertThat(trace("ble-pressure?signed=true", Hex.bytes("06 FF FF FF"))
                        .rows()
                        .get(0)
                        .what())
                .isEqualTo("pressure -25.0 Pa");
    }

    @Test
    void givenSentence_whenTraced_thenTheFirstOneCountsToo() throws InputException {
        byte[] bytes = "$IIXDR,P,249.1,P,DP1*4B\r\n".getBytes(StandardCharsets.US_ASCII);

        assertThat(trace("nmea-xdr", bytes).rows().get(0).what()).isEqualTo("pressure 249.1 Pa");
    }

    @Test
    void givenAnyDriverAndAnyBytes_whenTraced_thenRowsCoverThemWithoutGapOrOverlap() throws InputException {
        Random random = new Random(11);
        for (DriverCatalog.Entry entry : catalog.list()) {
            Driver driver = catalog.find(entry.name());
            for (int i = 0; i < 300; i++) {
                byte[] bytes = new byte[random.nextInt(400)];
                random.nextBytes(bytes);
                int next = 0;
                for (DecodeTrace.Row row : DecodeTrace.of(driver, bytes, "").rows()) {
                    assertThat(row.offset()).as(entry.name()).isEqualTo(next);
                    next += row.length();
                }
                assertThat(next).as(entry.name()).isEqualTo(bytes.length);
            }
        }
    }
}
