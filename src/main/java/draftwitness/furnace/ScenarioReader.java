package draftwitness.furnace;

import draftwitness.input.InputException;
import draftwitness.input.Roles;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Reads scenario files: a house, its faults, its instruments. A file with grades describes one scenario a grade. Every
 * key has a default; an unknown key is an error. {@code docs/furnace-model.md} lists all keys.
 */
final class ScenarioReader {
    private static final double INCH = 249.08891;
    private static final double HOUR = 3600;
    private static final double LONGEST = 7 * 24 * HOUR;

    private final String name;
    private final TomlTableReader top;
    private boolean propane;

    private ScenarioReader(String name, TomlTableReader top) {
        this.name = name;
        this.top = top;
    }

    /**
     * Reads one file.
     *
     * @param name the scenario's name; a grade is appended to it
     * @param file what to call the file in messages
     * @throws InputException naming file, line and key
     */
    static List<Scenario> read(String name, String file, String text) throws InputException {
        ScenarioReader reader = new ScenarioReader(name, TomlTableReader.parse(file, text));
        List<Scenario> all = reader.scenarios();
        reader.top.finish();
        return all;
    }

    private List<Scenario> scenarios() throws InputException {
        String title = top.string("title").orElse(name);
        String lesson = top.string("lesson").orElse("");
        double duration = top.number("duration", 600, 1, LONGEST);
        House house = house(title);
        TomlTableReader grades = top.table("grade");
        List<Scenario> out = new ArrayList<>();
        for (String grade : grades.keys()) {
            TomlTableReader t = grades.table(grade);
            double severity = t.number("severity", 1, 0.001, 1);
            out.add(new Scenario(
                    name + "-" + grade,
                    title + ", " + grade,
                    t.string("lesson").orElse(lesson),
                    t.number("duration", duration, 1, LONGEST),
                    scaled(house, severity)));
        }
        if (out.isEmpty()) {
            out.add(new Scenario(name, title, lesson, duration, house));
        }
        return out;
    }

    private static House scaled(House h, double severity) {
        List<Fault> faults = h.faults().stream()
                .map(f -> new Fault(
                        f.cause(), f.severity() * severity, f.fromSeconds(), f.overSeconds(), f.untilSeconds()))
                .toList();
        return h.with(faults);
    }

    private House house(String title) throws InputException {
        TomlTableReader t = top.table("house");
        House.Place place = new House.Place(
                t.number("altitude-m", 0, -400, 5000),
                t.number("outdoor-c", 0, -45, 35),
                t.number("room-c", 20, -10, 45),
                t.number("wind-m-s", 1.0, 0, 30),
                t.number("gustiness", 0.25, 0, 1));
        House.FlueSide flue = new House.FlueSide(
                (int) t.integer("pipes", 2, 1, 2),
                atCollector(t),
                t.number("inducer-strength", 1, 0.3, 2),
                t.number("vent-factor", 1, 0.2, 10),
                t.number("column-m", 0.6, 0.1, 3),
                (int) t.integer("stages", 1, 1, 2));
        House.GasRating gas = gas(top.table("gas"));
        return new House(
                t.string("title").orElse(title),
                place,
                flue,
                rating(top.table("switch")),
                gas,
                sequence(top.table("sequence")),
                calls(top.table("calls")),
                faults(),
                instruments(),
                t.number("variety", 1, 0, 1));
    }

    private static boolean atCollector(TomlTableReader t) throws InputException {
        String port = t.string("switch-port").orElse("inducer");
        return switch (port) {
            case "inducer" -> false;
            case "collector" -> true;
            default -> throw t.error("switch-port", "must be \"inducer\" or \"collector\"");
        };
    }

    private static House.SwitchRating rating(TomlTableReader t) throws InputException {
        double make = positive(t, "set-point", 0.60 * INCH);
        double differential = positive(t, "differential", 0.08 * INCH);
        if (!(differential < make)) {
            throw t.error("differential", "must be smaller than the set point");
        }
        boolean twoPorts = t.integer("ports", 1, 1, 2) == 2;
        return new House.SwitchRating(make, differential, positive(t, "tolerance", 0.05 * INCH), twoPorts);
    }

    private House.GasRating gas(TomlTableReader t) throws InputException {
        String kind = t.string("kind").orElse("natural");
        if (!kind.equals("natural") && !kind.equals("propane")) {
            throw t.error("kind", "must be \"natural\" or \"propane\"");
        }
        propane = kind.equals("propane");
        return new House.GasRating(
                propane,
                positive(t, "manifold", (propane ? 10 : 3.5) * INCH),
                positive(t, "low-fire-manifold", (propane ? 4.9 : 1.7) * INCH),
                positive(t, "inlet", (propane ? 11.5 : 7.0) * INCH));
    }

    private static House.Sequence sequence(TomlTableReader t) throws InputException {
        return new House.Sequence(
                t.number("pre-purge", 15, 0, HOUR),
                t.number("igniter-warm-up", 17, 0, HOUR),
                t.number("trial-for-ignition", 5, 0, HOUR),
                t.number("proving-limit", 60, 0, HOUR),
                (int) t.integer("attempts", 3, 1, 20),
                t.number("post-purge", 15, 0, HOUR),
                t.number("inter-purge", 20, 0, HOUR),
                t.number("retry-delay", 30, 1, HOUR),
                t.number("lockout", HOUR, 1, 24 * HOUR),
                t.number("switch-filter", 0.25, 0, 10),
                t.number("flame-failure", 0.8, 0, 10),
                t.number("blower-on", 30, 0, HOUR),
                t.number("blower-off", 100, 0, HOUR),
                t.number("low-fire", 240, 0, 24 * HOUR));
    }

    private static House.Calls calls(TomlTableReader t) throws InputException {
        return new House.Calls(
                t.number("first", 15, 0, 24 * HOUR),
                t.number("heat", 300, 1, 24 * HOUR),
                t.number("pause", 300, 1, 24 * HOUR),
                t.number("spread", 0, 0, 0.5));
    }

    private List<Fault> faults() throws InputException {
        List<Fault> out = new ArrayList<>();
        for (TomlTableReader t : top.tables("fault")) {
            String id = t.string("cause").orElseThrow(() -> t.error("needs a cause; known: " + Cause.ids()));
            Cause cause = Cause.ofId(id)
                    .orElseThrow(() -> t.error("cause", "'" + id + "' is not known; known: " + Cause.ids()));
            double from = t.number("from", 0, 0, LONGEST);
            double until = t.has("until") ? t.number("until", 0, 0, LONGEST) : Double.POSITIVE_INFINITY;
            if (!(until > from)) {
                throw t.error("until", "must be later than from");
            }
            double severity = t.number("severity", 1, 0.001, 1);
            out.add(new Fault(cause, severity, from, t.number("over", 0, 0, LONGEST), until));
        }
        return out;
    }

    private List<InstrumentSpec> instruments() throws InputException {
        List<InstrumentSpec> out = new ArrayList<>();
        for (TomlTableReader t : top.tables("sensor")) {
            InstrumentSpec spec = instrument(t);
            if (out.stream().anyMatch(o -> o.tap() == spec.tap())) {
                throw t.error("tap", spec.tap().role() + " has an instrument already");
            }
            out.add(spec);
        }
        if (out.isEmpty()) {
            throw top.error("needs at least one [[sensor]] with a tap, such as \"draft.switch\"");
        }
        return out;
    }

    private static InstrumentSpec instrument(TomlTableReader t) throws InputException {
        Tap tap = tap(t, "tap").orElseThrow(() -> t.error("needs a tap; known: " + Tap.roles()));
        Tap connectedTo = tap(t, "connected-to").orElse(tap);
        Unit unit = t.unit("unit").orElse(usualUnit(tap.quantity()));
        if (connectedTo.quantity() != tap.quantity()) {
            throw t.error("connected-to", "is not of the same quantity as " + tap.role());
        }
        if (unit.quantity() != tap.quantity()) {
            throw t.error("unit", unit.symbol() + " cannot be read at " + tap.role());
        }
        boolean contact = tap.quantity() == Quantity.CONTACT;
        return new InstrumentSpec(
                tap,
                connectedTo,
                unit,
                contact ? 0 : (int) t.integer("decimals", unit.usualDecimals(), 0, 6),
                t.number("rate", 50, 0.01, 400),
                t.number("noise", tap.quantity() == Quantity.PRESSURE ? 0.6 : 0, 0, 1000),
                t.number("zero", 0, -5000, 5000),
                t.number("zero-drift-per-hour", 0, -1000, 1000),
                t.number("lag", 0, 0, 60),
                t.number("jitter-ms", 1, 0, 1000) / 1000,
                t.number("drop-outs-per-hour", 0, 0, 3600),
                t.number("drop-out-seconds", 3, 0.1, HOUR));
    }

    private static Optional<Tap> tap(TomlTableReader t, String key) throws InputException {
        Optional<String> role = t.string(key);
        if (role.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(Roles.parse(role.get()));
        } catch (InputException e) {
            throw t.error(key, String.valueOf(e.getMessage()));
        }
    }

    private static Unit usualUnit(Quantity quantity) {
        return switch (quantity) {
            case PRESSURE -> Unit.PASCAL;
            case CURRENT -> Unit.MICROAMPERE;
            case VOLTAGE -> Unit.VOLT;
            case TEMPERATURE -> Unit.CELSIUS;
            case CONTACT -> Unit.CONTACT;
        };
    }

    private static double positive(TomlTableReader t, String key, double byDefault) throws InputException {
        double value = t.pressure(key).orElse(byDefault);
        if (!(value > 0)) {
            throw t.error(key, "must be above 0");
        }
        return value;
    }
}
