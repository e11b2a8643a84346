package draftwitness.dashboard;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.List;

/** Compares a reading with the appliance's plate, in words and as lines across the strip. Pure. */
final class PlateNotes {
    /** Inner limits of the margin bands: 0.25 and 0.75 in w.c. (the outer from common practice, the inner our own). */
    static final double THIN_BELOW_PASCALS = 0.25 * 249.08891;

    static final double HEALTHY_FROM_PASCALS = 0.75 * 249.08891;

    /** Below this share of the set point the inducer is taken to be at rest. */
    private static final double REST_SHARE = 0.15;

    /** Gas within this share of the plate is on target (common practice). */
    private static final double GAS_SHARE = 0.10;

    /** A remark with its tone. */
    record Note(String text, Tone tone) {
        static final Note NONE = new Note("", Tone.QUIET);
    }

    private final Setup setup;
    private final Unit unit;
    private final int decimals;

    /** Notes in a unit, with so many decimals. */
    PlateNotes(Setup setup, Unit unit, int decimals) {
        this.setup = setup;
        this.unit = unit;
        this.decimals = decimals;
    }

    /**
     * The remark on a reading.
     *
     * @param value the reading, in pascals
     * @param referencePascals pressure at the switch's other side
     */
    Note note(Tap tap, double value, double referencePascals) {
        return switch (tap) {
            case DRAFT_SWITCH -> margin(referencePascals - value);
            case GAS_MANIFOLD -> manifold(value);
            case GAS_INLET -> inlet(value);
            default -> Note.NONE;
        };
    }

    private Note margin(double suction) {
        Setup.PressureSwitch rating = setup.pressureSwitch();
        if (rating == null) {
            return Note.NONE;
        }
        double margin = suction - rating.setPointPascals();
        if (suction < REST_SHARE * rating.setPointPascals()) {
            return new Note(Words.get("margin.rest", say(rating.setPointPascals())), Tone.QUIET);
        }
        if (margin < 0) {
            return new Note(Words.get("margin.short", say(-margin)), Tone.ATTENTION);
        }
        if (margin < THIN_BELOW_PASCALS) {
            return new Note(Words.get("margin.thin", say(margin)), Tone.ATTENTION);
        }
        String key = margin < HEALTHY_FROM_PASCALS ? "margin.modest" : "margin.healthy";
        return new Note(Words.get(key, say(margin)), Tone.NORMAL);
    }

    private Note manifold(double value) {
        Double plate = setup.gas().manifoldPascals();
        if (plate == null || value < REST_SHARE * plate) {
            return plate == null ? Note.NONE : new Note(Words.get("plate.rest", say(plate)), Tone.QUIET);
        }
        double off = value / plate - 1;
        String percent = Math.round(Math.abs(off) * 100) + " %";
        if (Math.abs(off) <= GAS_SHARE) {
            return new Note(Words.get("plate.on", say(plate)), Tone.NORMAL);
        }
        return new Note(Words.get(off > 0 ? "plate.above" : "plate.below", percent, say(plate)), Tone.ATTENTION);
    }

    private Note inlet(double value) {
        Double least = setup.gas().inletMinPascals();
        Double most = setup.gas().inletMaxPascals();
        if (least != null && value < least) {
            return new Note(Words.get("inlet.low", say(least)), Tone.ATTENTION);
        }
        if (most != null && value > most) {
            return new Note(Words.get("inlet.high", say(most)), Tone.ATTENTION);
        }
        return least == null && most == null ? Note.NONE : new Note(Words.get("inlet.on"), Tone.NORMAL);
    }

    /** The levels to draw across a tap's strip. */
    List<LevelLine> lines(Tap tap) {
        List<LevelLine> lines = new ArrayList<>();
        Setup.PressureSwitch rating = setup.pressureSwitch();
        if (tap == Tap.DRAFT_SWITCH && rating != null) {
            double make = -rating.setPointPascals();
            double opens = -rating.breakPascals();
            lines.add(new LevelLine(make, Words.get("line.set-point", say(make)), false));
            lines.add(new LevelLine(opens, Words.get("line.break", say(opens)), true));
        }
        Double plate = setup.gas().manifoldPascals();
        if (tap == Tap.GAS_MANIFOLD && plate != null) {
            lines.add(new LevelLine(plate, Words.get("line.plate", say(plate)), false));
        }
        Double least = setup.gas().inletMinPascals();
        if (tap == Tap.GAS_INLET && least != null) {
            lines.add(new LevelLine(least, Words.get("line.least", say(least)), true));
        }
        return lines;
    }

    private String say(double pascals) {
        return Figures.quantity(pascals, unit, decimals);
    }
}
