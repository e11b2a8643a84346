package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumberFieldTest {

    private static String read(String keys, Unit unit, String hex) throws InputException {
        ReadingSpec spec = new ReadingSpec("p", unit);
        TomlTableReader table = TomlTableReader.parse("t", keys.replace(';', '\n'));
        NumberField field = NumberField.read(table, spec, NumberType.INT16, WordOrder.BIG);
        table.finish();
        Staged staged = new Staged();
        Fault fault = field.stage(0, spec, unit, Hex.bytes(hex), 0, staged);
        DecodeLog log = new DecodeLog();
        staged.release(1, 0, log);
        return fault != null ? fault.toString() : log.events.get(0);
    }

    /** Expected values: two's complement and IEEE 754, by hand. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # keys                                       | bytes                   | read
            type="int8"                                  | 80                      | 0: -128 Pa
            type="uint8"                                 | 80                      | 0: 128 Pa
            type="int16"                                 | F3 CC                   | 0: -3124 Pa
            type="int16";scale=0.1                       | F3 CC                   | 0: -312.4 Pa
            type="int16";scale=0.10                      | F3 CC                   | 0: -312.4 Pa
            type="int16";scale=10                        | F3 CC                   | 0: -31240 Pa
            type="int16";scale=0.1;offset=0.05           | F3 CC                   | 0: -312.35 Pa
            type="int16";order="little"                  | CC F3                   | 0: -3124 Pa
            type="uint16"                                | F3 CC                   | 0: 62412 Pa
            type="int24"                                 | FF F3 CC                | 0: -3124 Pa
            type="uint24";order="little"                 | 01 00 80                | 0: 8388609 Pa
            type="int32"                                 | FF FF F3 CC             | 0: -3124 Pa
            type="int32";order="little"                  | CC F3 FF FF             | 0: -3124 Pa
            type="int32";order="big-swapped"             | F3 CC FF FF             | 0: -3124 Pa
            type="int32";order="little-swapped"          | FF FF CC F3             | 0: -3124 Pa
            type="uint32"                                | FF FF F3 CC             | 0: 4294964172 Pa
            type="int64"                                 | FF FF FF FF FF FF F3 CC | 0: -3124 Pa
            type="float32"                               | C3 9C 33 33             | 0: -312.400 Pa
            type="float32";order="little"                | 33 33 9C C3             | 0: -312.400 Pa
            type="float32";order="big-swapped"           | 33 33 C3 9C             | 0: -312.400 Pa
            type="float32";order="little-swapped"        | 9C C3 33 33             | 0: -312.400 Pa
            type="float32";decimals=1                    | C3 9C 33 33             | 0: -312.4 Pa
            type="float64"                               | C0 73 86 66 66 66 66 66 | 0: -312.400 Pa
            type="float64";order="big-swapped"           | 66 66 66 66 86 66 C0 73 | 0: -312.400 Pa
            type="float32"                               | 7F C0 00 00             | NO_VALUE 0
            type="float32"                               | FF 80 00 00             | OVER_RANGE 0
            type="float32"                               | 7F 7F FF FF             | NOT_A_READING
            type="int16";no-value=[0x7FFF]               | 7F FF                   | NO_VALUE 0
            type="int16";over-range=[-32768]             | 80 00                   | OVER_RANGE 0
            type="int16";over-range=[0x8000]             | 80 00                   | OVER_RANGE 0
            type="int16";scale=0.1;max=100               | 03 E9                   | OVER_RANGE 0
            type="int16";scale=0.1;min=-300              | F3 CC                   | OVER_RANGE 0
            type="int16";scale=0.016666666666666666      | F3 CC                   | 0: -52.067 Pa
            """)
    void givenBytes_whenReadAsDeclared_thenTheValueIsExact(String keys, String bytes, String read)
            throws InputException {
        assertThat(read(keys, Unit.PASCAL, bytes)).isEqualTo(read);
    }

    @Test
    void givenBitOfAByte_whenItIsAContact_thenItIsOpenOrClosed() throws InputException {
        assertThat(read("type=\"uint8\";bit=3", Unit.CONTACT, "08")).isEqualTo("0: 1 1");
        assertThat(read("type=\"uint8\";bit=2", Unit.CONTACT, "08")).isEqualTo("0: 0 1");
        assertThat(read("type=\"uint8\"", Unit.CONTACT, "08")).isEqualTo("NOT_A_READING");
    }

    /**
     * IEEE 11073-20601; worked examples of the Bluetooth SIG "Personal Health Devices Transcoding White Paper" v1.6,
     * section 2.2.
     */
    @ParameterizedTest
    @CsvSource(textBlock = """
            # type,   bits,     value
            sfloat16, 0072,     0: 114 Pa
            sfloat16, F16C,     0: 36.4 Pa
            sfloat16, FF5E,     0: -16.2 Pa
            sfloat16, 0FFF,     0: -1 Pa
            sfloat16, 2024,     0: 3600 Pa
            sfloat16, 2005,     0: 500 Pa
            sfloat16, F3CF,     0: 97.5 Pa
            sfloat16, 1064,     0: 1000 Pa
            sfloat16, 0FF6,     0: -10 Pa
            sfloat16, 07FE,     OVER_RANGE 0
            sfloat16, 07FF,     NO_VALUE 0
            sfloat16, 0800,     NO_VALUE 0
            sfloat16, 0801,     NO_VALUE 0
            sfloat16, 0802,     OVER_RANGE 0
            sfloat32, FF00016C, 0: 36.4 Pa
            sfloat32, FE000D97, 0: 34.79 Pa
            sfloat32, 00FFFFFF, 0: -1 Pa
            sfloat32, 007FFFFE, OVER_RANGE 0
            sfloat32, 007FFFFF, NO_VALUE 0
            sfloat32, 00800000, NO_VALUE 0
            sfloat32, 00800001, NO_VALUE 0
            sfloat32, 00800002, OVER_RANGE 0
            """)
    void givenMedicalFloat_whenRead_thenItIsThePublishedValue(String type, String bits, String value)
            throws InputException {
        assertThat(read("type=\"" + type + "\"", Unit.PASCAL, bits)).isEqualTo(value);
    }
}
