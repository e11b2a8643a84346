package draftwitness.recording;

import draftwitness.reading.Unit;

/** The number that stands for each unit inside a stretch. Part of the file format: numbers never change meaning. */
final class UnitCodes {
    private static final Unit[] UNITS = {
        Unit.PASCAL, // 0
        Unit.HECTOPASCAL, // 1
        Unit.KILOPASCAL, // 2
        Unit.MILLIBAR, // 3
        Unit.INCH_OF_WATER, // 4
        Unit.MILLIMETRE_OF_WATER, // 5
        Unit.POUND_PER_SQUARE_INCH, // 6
        Unit.INCH_OF_MERCURY, // 7
        Unit.INCH_OF_WATER_4C, // 8
        Unit.INCH_OF_WATER_60F, // 9
        Unit.MICROAMPERE, // 10
        Unit.VOLT, // 11
        Unit.CELSIUS, // 12
        Unit.CONTACT // 13
    };

    private UnitCodes() {}

    static int codeOf(Unit unit) {
        for (int code = 0; code < UNITS.length; code++) {
            if (UNITS[code] == unit) {
                return code;
            }
        }
        throw new IllegalArgumentException("unit " + unit.symbol() + " has no number in the recording format");
    }

    /**
     * The unit of a number.
     *
     * @throws IndexOutOfBoundsException if there is none
     */
    static Unit of(long code) {
        if (code < 0 || code >= UNITS.length) {
            throw new IndexOutOfBoundsException("unit number " + code);
        }
        return UNITS[(int) code];
    }
}
