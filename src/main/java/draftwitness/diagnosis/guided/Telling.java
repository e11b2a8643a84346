package draftwitness.diagnosis.guided;

import draftwitness.reading.Unit;
import java.util.Locale;

/** Numbers in plain sentences, each with no more digits than its uncertainty allows. Pure. */
final class Telling {
    private Telling() {}

    /** A pressure with its uncertainty: {@code 0.61 ± 0.02 inH2O}. */
    static String pressure(double pascals, double uncertainty, Unit unit) {
        return plusMinus(unit.fromBase(pascals), unit.fromBase(uncertainty), least(unit)) + " " + unit.symbol();
    }

    /** A pressure: {@code 0.61 inH2O}. */
    static String pressure(double pascals, Unit unit) {
        return number(unit.fromBase(pascals), least(unit)) + " " + unit.symbol();
    }

    /** Decimals that show about a pascal. */
    private static int least(Unit unit) {
        return switch (unit) {
            case PASCAL -> 1;
            case INCH_OF_WATER, INCH_OF_WATER_4C, INCH_OF_WATER_60F -> 2;
            default -> unit.usualDecimals();
        };
    }

    static String seconds(double seconds, double uncertainty) {
        return plusMinus(seconds, uncertainty, seconds < 10 ? 2 : 1) + " s";
    }

    static String seconds(double seconds) {
        return number(seconds, seconds < 10 ? 1 : 0) + " s";
    }

    /** A share in percent. */
    static String percent(double share, double uncertainty) {
        return plusMinus(share * 100, uncertainty * 100, 1) + " %";
    }

    static String percent(double share) {
        return number(share * 100, Math.abs(share) < 0.1 ? 1 : 0) + " %";
    }

    /** A change in percent, with its sign. */
    static String change(double share, double uncertainty) {
        return (share > 0 ? "+" : "") + percent(share, uncertainty);
    }

    private static String plusMinus(double value, double uncertainty, int most) {
        if (!Double.isFinite(uncertainty)) {
            return number(value, most);
        }
        int needed = uncertainty > 0 ? (int) Math.ceil(-Math.log10(uncertainty) + 0.3) : most;
        int decimals = Math.max(0, Math.min(most, needed));
        double shown = Math.max(uncertainty, 0.5 * Math.pow(10, -decimals)); // never a proud "± 0"
        return number(value, decimals) + " \u00b1 " + number(shown, decimals);
    }

    private static String number(double value, int decimals) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return text.matches("-0(\\.0*)?") ? text.substring(1) : text;
    }
}
