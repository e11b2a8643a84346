package draftwitness.app;

import draftwitness.capture.SourcePlan;
import draftwitness.driver.Driver;
import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import draftwitness.input.Roles;
import draftwitness.link.LinkAddress;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Understands {@code --source ID=DRIVER@LINK} and {@code --tap ROLE=ID.READING}: which drivers read which links, and
 * which reading is on which tap. Pure but for the driver catalogue.
 */
public final class SourcePlanner {
    private static final String SOURCE_FORM =
            "ID=DRIVER@LINK, such as draft.switch=ascii-line@serial:/dev/ttyUSB0?baud=9600";

    private final DriverCatalog catalog;

    public SourcePlanner(DriverCatalog catalog) {
        this.catalog = catalog;
    }

    private record Parsed(String id, Driver driver, String driverText, LinkAddress address, Map<Tap, Integer> taps) {}

    /**
     * Makes the plans.
     *
     * @param sources texts {@code ID=DRIVER@LINK}, at least one
     * @param taps texts {@code ROLE=ID.READING} or {@code ROLE=ID}
     * @throws InputException naming the text that cannot be used
     */
    public List<SourcePlan> plan(List<String> sources, List<String> taps) throws InputException {
        if (sources.isEmpty()) {
            throw new InputException("no source given; say --source " + SOURCE_FORM);
        }
        Map<String, Parsed> byId = new LinkedHashMap<>();
        for (String text : sources) {
            Parsed parsed = parse(text);
            if (byId.put(parsed.id(), parsed) != null) {
                throw new InputException("--source " + text + ": there is another source " + parsed.id());
            }
        }
        Set<Tap> taken = new TreeSet<>();
        for (String text : taps) {
            assign(text, byId, taken);
        }
        List<SourcePlan> plans = new ArrayList<>();
        for (Parsed p : byId.values()) {
            if (p.taps().isEmpty()) {
                assignByName(p, taken);
            }
            plans.add(new SourcePlan(p.id(), p.driver(), p.driverText(), p.address(), p.taps()));
        }
        checkSpeeds(plans);
        return plans;
    }

    private Parsed parse(String text) throws InputException {
        int equals = text.indexOf('=');
        int at = text.indexOf('@', equals + 1);
        if (equals < 1 || at < 0) {
            throw new InputException("--source " + text + " is not " + SOURCE_FORM);
        }
        String driverText = text.substring(equals + 1, at);
        Driver driver = catalog.find(driverText);
        LinkAddress address = LinkAddress.parse(text.substring(at + 1));
        if (!driver.controlLines().isEmpty() && address.kind() != LinkAddress.Kind.SERIAL) {
            throw new InputException("--source " + text + ": " + driver.name()
                    + " reads contacts on the control lines of a serial port; its link must be serial:PATH");
        }
        checkLink(text, driver, address);
        return new Parsed(text.substring(0, equals), driver, driverText, address, new LinkedHashMap<>());
    }

    /** Bluetooth devices have values by name, all others a stream of bytes; a driver reads one or the other. */
    private static void checkLink(String text, Driver driver, LinkAddress address) throws InputException {
        boolean ble = address.kind() == LinkAddress.Kind.BLE;
        if (driver.gatt().isPresent() && !ble) {
            throw new InputException("--source " + text + ": " + driver.name()
                    + " reads a Bluetooth device; its link must be ble:ADDRESS ('sources --ble' lists them)");
        }
        if (ble && driver.gatt().isEmpty()) {
            throw new InputException("--source " + text + ": " + driver.name()
                    + " reads a stream of bytes, which ble: does not bring; use a driver of the kind gatt, such as"
                    + " ble-text for lines of text");
        }
    }

    private static void assign(String text, Map<String, Parsed> byId, Set<Tap> taken) throws InputException {
        int equals = text.indexOf('=');
        if (equals < 1) {
            throw new InputException("--tap " + text + " is not ROLE=ID.READING, such as draft.switch=box.c1");
        }
        Tap tap = tap(text, text.substring(0, equals));
        String what = text.substring(equals + 1);
        Parsed source = sourceOf(what, byId);
        if (source == null) {
            throw new InputException("--tap " + text + ": there is no source of that name; there are " + byId.keySet());
        }
        String reading = what.length() > source.id().length()
                ? what.substring(source.id().length() + 1)
                : "";
        put(source, tap, reading.isEmpty() ? only(text, source) : index(text, source, reading), text, taken);
    }

    /** The source whose id is the text or its beginning before a dot; the longest wins, since ids may hold dots. */
    private static @Nullable Parsed sourceOf(String what, Map<String, Parsed> byId) {
        Parsed best = null;
        for (Parsed p : byId.values()) {
            boolean fits = what.equals(p.id()) || what.startsWith(p.id() + ".");
            if (fits && (best == null || p.id().length() > best.id().length())) {
                best = p;
            }
        }
        return best;
    }

    private static Tap tap(String text, String role) throws InputException {
        try {
            return Roles.parse(role);
        } catch (InputException e) {
            throw new InputException("--tap " + text + ": " + e.getMessage(), e);
        }
    }

    private static int only(String text, Parsed source) throws InputException {
        if (source.driver().readings().size() > 1) {
            throw new InputException("--tap " + text + ": " + source.driver().name()
                    + " has several readings; say which: " + names(source));
        }
        return 0;
    }

    private static int index(String text, Parsed source, String reading) throws InputException {
        for (int i = 0; i < source.driver().readings().size(); i++) {
            if (source.driver().readings().get(i).name().equals(reading)) {
                return i;
            }
        }
        throw new InputException("--tap " + text + ": " + source.driver().name() + " has no reading '" + reading
                + "'; it has " + names(source));
    }

    private static String names(Parsed source) {
        return source.driver().readings().stream().map(r -> r.name()).collect(Collectors.joining(" "));
    }

    /** Without a tap: the id itself is a role, or the readings are called like roles. */
    private static void assignByName(Parsed source, Set<Tap> taken) throws InputException {
        String text = source.id() + "=" + source.id();
        if (Tap.ofRole(source.id()).isPresent()) {
            put(source, tap(text, source.id()), only(text, source), text, taken);
            return;
        }
        for (int i = 0; i < source.driver().readings().size(); i++) {
            Tap tap = Tap.ofRole(source.driver().readings().get(i).name()).orElse(null);
            if (tap != null && !taken.contains(tap)) {
                put(source, tap, i, text, taken);
            }
        }
        if (source.taps().isEmpty()) {
            throw new InputException("source " + source.id() + " is on no tap; say --tap ROLE=" + source.id()
                    + ".READING with a reading of " + names(source) + " and a role of " + Tap.roles());
        }
    }

    private static void put(Parsed source, Tap tap, int reading, String text, Set<Tap> taken) throws InputException {
        if (!taken.add(tap)) {
            throw new InputException("--tap " + text + ": " + tap.role() + " is taken already");
        }
        if (source.taps().containsValue(reading)) {
            throw new InputException("--tap " + text + ": that reading is on another tap already");
        }
        if (source.driver().readings().get(reading).unit().quantity() != tap.quantity()) {
            throw new InputException("--tap " + text + ": " + tap.role() + " is a "
                    + tap.quantity().name().toLowerCase(Locale.ROOT) + ", and that reading comes in "
                    + source.driver().readings().get(reading).unit().symbol());
        }
        source.taps().put(tap, reading);
    }

    private static void checkSpeeds(List<SourcePlan> plans) throws InputException {
        double speed = plans.get(0).address().speed();
        for (SourcePlan p : plans) {
            if (p.address().speed() != speed) {
                throw new InputException(p.address() + ": all sources of a session run at one speed, and "
                        + plans.get(0).address() + " runs at " + speed);
            }
        }
    }
}
