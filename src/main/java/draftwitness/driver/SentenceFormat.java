package draftwitness.driver;

import draftwitness.reading.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where the readings stand in a checked sentence. Immutable.
 *
 * <p>Either a field by its number, or in a transducer sentence (XDR) the group of four fields - type, value, unit, name
 * - with the right type and name.
 */
final class SentenceFormat {

    /**
     * One reading's place.
     *
     * @param field number of the field with the value, from 1 after the address; 0 in transducer sentences
     * @param unitField number of the field with the unit, 0 if none
     * @param type transducer type, such as {@code P}
     * @param id transducer name; empty for the first of its type
     */
    record Place(int index, TextReading text, int field, int unitField, String type, String id, boolean optional) {}

    private final List<Place> places;

    SentenceFormat(List<Place> places) {
        this.places = List.copyOf(places);
    }

    /**
     * Stages the readings; gives why the sentence is damaged, or null. Without any reading in it, nothing is staged.
     */
    @Nullable
    Fault read(String[] fields, Staged staged) {
        for (Place place : places) {
            Fault fault = place.field() > 0 ? byField(place, fields, staged) : byTransducer(place, fields, staged);
            if (fault != null) {
                return fault;
            }
        }
        return null;
    }

    private static @Nullable Fault byField(Place place, String[] fields, Staged staged) {
        String value = place.field() < fields.length ? fields[place.field()].strip() : "";
        if (value.isEmpty()) {
            return place.optional() ? null : Fault.NOT_A_READING;
        }
        boolean unitThere = place.unitField() > 0 && place.unitField() < fields.length;
        return stage(place, value, unitThere ? fields[place.unitField()].strip() : "", staged);
    }

    private static @Nullable Fault byTransducer(Place place, String[] fields, Staged staged) {
        if ((fields.length - 1) % 4 != 0) {
            return Fault.NOT_A_READING;
        }
        for (int i = 1; i < fields.length; i += 4) {
            boolean mine = fields[i].equals(place.type()) && (place.id().isEmpty() || fields[i + 3].equals(place.id()));
            if (mine && !fields[i + 1].isBlank()) {
                return stage(place, fields[i + 1].strip(), fields[i + 2].strip(), staged);
            }
        }
        return null; // other sentences may carry it
    }

    /** In transducer sentences pressures have the units {@code B} for bar and {@code P} for pascal. */
    private static @Nullable Fault stage(Place place, String value, String unit, Staged staged) {
        boolean pressure = place.text().spec().unit().quantity() == Quantity.PRESSURE;
        String written = pressure && unit.equals("B") ? "bar" : pressure && unit.equals("P") ? "Pa" : unit;
        return place.text().stage(place.index(), value, written, staged);
    }
}
