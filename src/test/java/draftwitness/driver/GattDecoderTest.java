package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Values: Bluetooth SIG, GATT Specification Supplement and assigned numbers; bytes computed from them. */
class GattDecoderTest {
    private static final String PRESSURE = GattNeeds.fullUuid("0x2A6D");
    private static final String OWN = "12345678-1234-5678-1234-56789abcdef0";

    @TempDir
    Path folder;

    private static Driver shipped(String spec) throws InputException {
        return DriverCatalog.shipped().find(spec);
    }

    private static void give(Decoder decoder, DecodeLog log, String endpoint, String hex) {
        byte[] bytes = Hex.bytes(hex);
        decoder.decode(new Chunk(bytes, 0, bytes.length, 1, endpoint), log);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # driver,                  value,         event
            ble-pressure,              '02 76 0F 00', '0: 101325.0 Pa'
            ble-pressure,              '06 FF FF FF', '0: 429496704.6 Pa'
            ble-pressure?signed=true,  '06 FF FF FF', '0: -25.0 Pa'
            ble-pressure,              '02 76 0F',    'PARTIAL 3'
            """)
    void givenPressureCharacteristic_whenNotified_thenTheDeclaredSignCounts(String spec, String value, String event)
            throws InputException {
        Decoder decoder = shipped(spec).newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, PRESSURE, value);

        assertThat(log.events).startsWith(event);
        assertThat(log.bytes).isEqualTo(Hex.bytes(value).length);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # descriptor,           value,         event
            '10 FF 24 27 01 00 00', '06 FF FF FF', '0: -25.0 Pa'
            '10 FF 24 27 01 00 00', '06 FF FF',    'NOT_A_READING 3'
            '08 FF 24 27 01 00 00', '02 76 0F 00', '0: 101325.0 Pa'
            '04 02 24 27 01 00 00', '17',          '0: 2300 Pa'
            '06 FD 80 27 01 00 00', '34 0F',       '0: 3892 mbar'
            '0E FB 80 27 01 00 00', '07 FF',       '0: -2.49 mbar'
            '0E FC A5 27 01 00 00', 'FB FF',       '0: -0.0005 psi'
            '16 00 24 27 01 00 00', '5E FF',       '0: -16.2 Pa'
            '17 00 24 27 01 00 00', '6C 01 00 FF', '0: 36.4 Pa'
            '14 00 24 27 01 00 00', '33 33 9C C3', '0: -312.400 Pa'
            '19 00 24 27 01 00 00', '2D 31 32 2E 35', '0: -12.5 Pa'
            '0E FF 00 27 01 00 00', '9C FF',       '0: -10.0 Pa'
            """)
    void givenPresentationFormat_whenNotified_thenTheNumberIsReadAsItSays(String descriptor, String value, String event)
            throws InputException {
        Decoder decoder = shipped("ble-signed?characteristic=" + OWN).newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, GattNeeds.descriptorEndpoint(OWN), descriptor);
        give(decoder, log, OWN, value);

        assertThat(log.events).startsWith("message 7", event);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # descriptor of volt, mmHg, a structure, too short
            '10 FF 28 27 01 00 00'
            '10 FF 81 27 01 00 00'
            '1B 00 24 27 01 00 00'
            '10 FF 24 27'
            """)
    void givenDescriptorThatSuitsNoPressure_whenNotified_thenNothingIsRead(String descriptor) throws InputException {
        Decoder decoder = shipped("ble-signed?characteristic=" + OWN).newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, GattNeeds.descriptorEndpoint(OWN), descriptor);
        give(decoder, log, OWN, "06 FF FF FF");

        assertThat(log.readings).isEmpty();
        assertThat(log.faults).containsEntry(Fault.UNKNOWN_UNIT, 2);
    }

    @Test
    void givenNoDescriptorYet_whenNotified_thenNothingIsGuessed() throws InputException {
        Decoder decoder = shipped("ble-signed?characteristic=" + OWN).newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, OWN, "06 FF FF FF");
        give(decoder, log, GattNeeds.descriptorEndpoint(OWN), "10 FF 24 27 01 00 00");
        give(decoder, log, OWN, "06 FF FF FF");
        decoder.restart(0);
        give(decoder, log, OWN, "07 FF FF FF");

        assertThat(log.readings).containsExactly("0: -25.0 Pa");
    }

    @Test
    void givenAnyCharacteristic_whenSeveralDescribeThemselves_thenTheFirstPressureIsTaken() throws InputException {
        Driver driver = shipped("ble-signed");
        Decoder decoder = driver.newDecoder();
        DecodeLog log = new DecodeLog();
        String other = GattNeeds.fullUuid("0x2A6E");
        give(decoder, log, GattNeeds.descriptorEndpoint(other), "0E FE 2F 27 01 00 00"); // degrees Celsius
        give(decoder, log, GattNeeds.descriptorEndpoint(OWN), "10 FF 24 27 01 00 00");
        give(decoder, log, other, "10 09");
        give(decoder, log, OWN, "06 FF FF FF");

        assertThat(log.readings).containsExactly("0: -25.0 Pa");
        assertThat(driver.gatt().orElseThrow().characteristics())
                .containsExactly(new GattNeeds.Characteristic("any", "any", GattNeeds.Get.NOTIFY, 1, true));
    }

    @Test
    void givenBatteryLevel_whenRead_thenItIsPercentAndReservedValuesAreFaults() throws InputException {
        Decoder decoder = shipped("ble-pressure").newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, GattNeeds.BATTERY_LEVEL, "64");
        give(decoder, log, GattNeeds.BATTERY_LEVEL, "65");

        assertThat(log.events).containsExactly("battery 100", "message 1", "NOT_A_READING 1");
    }

    @Test
    void givenTextSplitOverNotifications_whenDecoded_thenLinesAreWhole() throws InputException {
        Driver driver = shipped("ble-text");
        String endpoint = driver.gatt().orElseThrow().characteristics().get(0).uuid();

        DecodeLog log = Chunking.decode(
                driver, "34\r\n-312.4 Pa\r\n-312.5\r\n-3".getBytes(StandardCharsets.US_ASCII), endpoint);

        assertThat(log.readings).containsExactly("0: -312.4 Pa", "0: -312.5 Pa");
    }

    @Test
    void givenPressureDriver_whenAsked_thenItSaysWhatTheLinkMustGet() throws InputException {
        GattNeeds needs = shipped("ble-pressure?get=read&period=0.5").gatt().orElseThrow();

        assertThat(needs.characteristics())
                .containsExactly(new GattNeeds.Characteristic(
                        "0000181a-0000-1000-8000-00805f9b34fb",
                        "00002a6d-0000-1000-8000-00805f9b34fb",
                        GattNeeds.Get.READ,
                        0.5,
                        false));
        assertThat(needs.battery()).isTrue();
        assertThat(shipped("ascii-line").gatt()).isEmpty();
    }

    @Test
    void givenSeveralCharacteristics_whenReadingsNameThem_thenEachGoesToItsOwn() throws InputException, IOException {
        Driver driver = load("""
                title = "t"
                kind = "gatt"
                [[characteristic]]
                uuid = "0xFFF1"
                length = 3
                [[characteristic]]
                uuid = "0xFFF2"
                form = "text"
                [[reading]]
                name = "draft"
                unit = "Pa"
                characteristic = "0xFFF1"
                scale = 0.1
                [[reading]]
                name = "switch"
                unit = "1"
                characteristic = "0xfff1"
                at = 2
                type = "uint8"
                bit = 7
                [[reading]]
                name = "gas"
                unit = "inH2O"
                characteristic = "0xFFF2"
                """);
        Decoder decoder = driver.newDecoder();
        DecodeLog log = new DecodeLog();
        give(decoder, log, GattNeeds.fullUuid("0xFFF1"), "CC F3 80");
        give(decoder, log, GattNeeds.fullUuid("0xFFF2"), "0A 33 2E 35 30 0A");
        give(decoder, log, GattNeeds.fullUuid("0xFFF3"), "01");

        assertThat(log.readings).containsExactly("0: -312.4 Pa", "1: 1 1", "2: 3.50 inH2O");
        assertThat(log.bytes).isEqualTo(10);
    }

    private Driver load(String text) throws InputException, IOException {
        return DriverCatalog.fromFile(
                Files.writeString(folder.resolve("mine.toml"), text).toString());
    }

    @Test
    void givenWrongUuid_whenRead_thenItIsNamed() {
        assertThatThrownBy(() -> shipped("ble-signed?characteristic=2A6"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("characteristic.uuid: '2A6' is not a UUID such as 0x2A6D");
    }

    @Test
    void givenRandomInput_whenDecoded_thenNothingIsThrownOrLost() throws InputException {
        List<byte[]> good = List.of(
                Hex.bytes("06 FF FF FF"),
                Hex.bytes("10 FF 24 27 01 00 00"),
                "-3.5\n".getBytes(StandardCharsets.US_ASCII));
        List<String> endpoints =
                List.of(PRESSURE, OWN, GattNeeds.descriptorEndpoint(OWN), GattNeeds.BATTERY_LEVEL, "", "x/y/z");
        for (String spec : List.of("ble-pressure", "ble-signed", "ble-text?characteristic=" + OWN)) {
            assertThat(RandomCases.feed(shipped(spec), 8, 1_000_000, 300, good, endpoints).readings)
                    .as(spec)
                    .isNotEmpty();
        }
    }
}
