package draftwitness.input;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A date and a time of day as people write them, with or without a zone.
 *
 * @param instant the moment meant
 * @param zone the zone it was taken in
 * @param zoneGiven false if no zone was written and another one was taken
 */
public record WallClock(Instant instant, ZoneId zone, boolean zoneGiven) {
    private static final Pattern FORM = Pattern.compile(
            "(\\d{4}-\\d\\d-\\d\\d)[T ](\\d\\d:\\d\\d(?::\\d\\d(?:\\.\\d{1,9})?)?) ?(Z|[+-]\\d\\d(?::?\\d\\d)?|[A-Za-z]+/\\S+|UTC)?");

    /**
     * Reads {@code 2026-01-17 22:10}, with seconds if wanted, a {@code T} instead of the blank, and a zone after it:
     * {@code Z}, {@code +01:00} or {@code Europe/Berlin}.
     *
     * @param usual the zone that is taken when none is written
     * @throws InputException if it is no such text, or no moment or two moments of that zone (clocks being changed)
     */
    public static WallClock parse(String text, ZoneId usual) throws InputException {
        Matcher m = FORM.matcher(text.strip());
        if (!m.matches()) {
            throw new InputException(
                    "'" + text + "' is not a date and time such as 2026-01-17 22:10, with a zone if it is"
                            + " another than this computer's: 2026-01-17T22:10:00Z");
        }
        @Nullable String written = m.group(3);
        try {
            LocalDateTime local = LocalDateTime.parse(m.group(1) + "T" + m.group(2));
            ZoneId zone = written == null ? usual : ZoneId.of(written);
            return new WallClock(only(text, local, zone), zone, written != null);
        } catch (DateTimeParseException e) {
            throw new InputException("'" + text + "' is no date and time that there is", e);
        } catch (DateTimeException e) {
            throw new InputException(
                    "'" + text + "': '" + written + "' is not a zone such as +01:00 or Europe/Berlin", e);
        }
    }

    private static Instant only(String text, LocalDateTime local, ZoneId zone) throws InputException {
        List<ZoneOffset> offsets = zone.getRules().getValidOffsets(local);
        if (offsets.size() == 1) {
            return local.toInstant(offsets.get(0));
        }
        throw new InputException(
                offsets.isEmpty()
                        ? "'" + text + "' never was in " + zone + ", since clocks were put forward over it"
                        : "'" + text + "' was twice in " + zone + ", since clocks were put back; write the offset too, "
                                + offsets.get(0) + " or " + offsets.get(1));
    }

    /** What was understood, with its zone: {@code 2026-01-17 22:10:00 Europe/Berlin, which is 2026-01-17T21:10:00Z}. */
    public String text() {
        return DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss").format(instant.atZone(zone)) + " " + zone
                + ", which is " + instant;
    }
}
