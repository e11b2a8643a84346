package draftwitness.reading;

import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A unit that instruments send and people read, with its size in the base unit of its {@link Quantity}.
 *
 * <p>Sources of the factors: NIST SP 811 (2008), Appendix B; UCUM for psi and mmH2O. There is more than one inch of
 * water: {@code inH2O} is the conventional one (1000 kg/m3, 9.80665 m/s2).
 */
public enum Unit {
    PASCAL("Pa", Quantity.PRESSURE, 1, 1),
    HECTOPASCAL("hPa", Quantity.PRESSURE, 100, 3),
    KILOPASCAL("kPa", Quantity.PRESSURE, 1000, 4),
    MILLIBAR("mbar", Quantity.PRESSURE, 100, 3),
    /** Conventional inch of water: 0.0254 m x 1000 kg/m3 x 9.80665 m/s2. */
    INCH_OF_WATER("inH2O", Quantity.PRESSURE, 249.08891, 3),
    /** Conventional millimetre of water: 0.001 m x 1000 kg/m3 x 9.80665 m/s2. */
    MILLIMETRE_OF_WATER("mmH2O", Quantity.PRESSURE, 9.80665, 2),
    /** Pound-force per square inch: 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)2. */
    POUND_PER_SQUARE_INCH("psi", Quantity.PRESSURE, 6894.757293168361, 5),
    /** Conventional inch of mercury: 0.0254 m x 13595.1 kg/m3 x 9.80665 m/s2. */
    INCH_OF_MERCURY("inHg", Quantity.PRESSURE, 3386.38864034, 5),
    /** Inch of water at 39.2 degF (4 degC), NIST SP 811. */
    INCH_OF_WATER_4C("inH2O_4C", Quantity.PRESSURE, 249.082, 3),
    /** Inch of water at 60 degF, NIST SP 811. */
    INCH_OF_WATER_60F("inH2O_60F", Quantity.PRESSURE, 248.84, 3),
    MICROAMPERE("uA", Quantity.CURRENT, 1, 2),
    VOLT("V", Quantity.VOLTAGE, 1, 3),
    CELSIUS("degC", Quantity.TEMPERATURE, 1, 1),
    CONTACT("1", Quantity.CONTACT, 1, 0);

    private static final Map<String, Unit> BY_SYMBOL =
            Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(Unit::symbol, u -> u));

    /** What instruments print for the same units, lower case and without blanks, dots and quotes. */
    private static final Map<String, Unit> BY_INSTRUMENT_TEXT = Map.ofEntries(
            Map.entry("pa", PASCAL),
            Map.entry("pascal", PASCAL),
            Map.entry("hpa", HECTOPASCAL),
            Map.entry("kpa", KILOPASCAL),
            Map.entry("mbar", MILLIBAR),
            Map.entry("mb", MILLIBAR),
            Map.entry("inh2o", INCH_OF_WATER),
            Map.entry("inwc", INCH_OF_WATER),
            Map.entry("inwg", INCH_OF_WATER),
            Map.entry("inaq", INCH_OF_WATER),
            Map.entry("wc", INCH_OF_WATER),
            Map.entry("inh2o_4c", INCH_OF_WATER_4C),
            Map.entry("inh2o_60f", INCH_OF_WATER_60F),
            Map.entry("mmh2o", MILLIMETRE_OF_WATER),
            Map.entry("mmwc", MILLIMETRE_OF_WATER),
            Map.entry("psi", POUND_PER_SQUARE_INCH),
            Map.entry("inhg", INCH_OF_MERCURY),
            Map.entry("ua", MICROAMPERE),
            Map.entry("\u00b5a", MICROAMPERE),
            Map.entry("\u03bca", MICROAMPERE),
            Map.entry("v", VOLT),
            Map.entry("volt", VOLT),
            Map.entry("degc", CELSIUS),
            Map.entry("c", CELSIUS),
            Map.entry("\u00b0c", CELSIUS));

    private final String symbol;
    private final Quantity quantity;
    private final double inBase;
    private final int usualDecimals;

    Unit(String symbol, Quantity quantity, double inBase, int usualDecimals) {
        this.symbol = symbol;
        this.quantity = quantity;
        this.inBase = inBase;
        this.usualDecimals = usualDecimals;
    }

    /** The symbol used in files and on the command line, for example {@code inH2O}. */
    public String symbol() {
        return symbol;
    }

    public Quantity quantity() {
        return quantity;
    }

    /** One of this unit in the base unit of its quantity (pascal, microampere, volt, degree Celsius, 1). */
    public double inBase() {
        return inBase;
    }

    /** Decimals that show about a tenth of a pascal (or its like) in this unit; for screens, never for files. */
    public int usualDecimals() {
        return usualDecimals;
    }

    /** Converts a value in this unit to the base unit of its quantity. */
    public double toBase(double value) {
        return value * inBase;
    }

    /** Converts a value in the base unit of this unit's quantity to this unit. */
    public double fromBase(double base) {
        return base / inBase;
    }

    /** The unit with exactly this {@link #symbol()}, or empty. */
    public static Optional<Unit> ofSymbol(String symbol) {
        return Optional.ofNullable(BY_SYMBOL.get(symbol));
    }

    /**
     * The unit that an instrument means by the text after its number: case, blanks, dots and quotes do not matter
     * ({@code in. W.C.}, {@code "wc}, {@code PA}). Empty if unknown; never a guess.
     */
    public static Optional<Unit> ofInstrumentText(String text) {
        StringBuilder bare = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c != ' ' && c != '.' && c != '"' && c != '\'') {
                bare.append(c);
            }
        }
        return Optional.ofNullable(BY_INSTRUMENT_TEXT.get(bare.toString().toLowerCase(Locale.ROOT)));
    }

    /** All symbols in declaration order, for messages. */
    public static String symbols() {
        return Arrays.stream(values()).map(Unit::symbol).collect(Collectors.joining(" "));
    }
}
