package draftwitness.diagnosis;

import java.util.List;

/**
 * What a session showed of one kind of evidence.
 *
 * @param kind identifier in the table
 * @param outcome identifier of one of its outcomes
 * @param text what was seen, with numbers, in plain words
 * @param from the readings it comes from, oldest first
 */
record Evidence(String kind, String outcome, String text, List<Seen> from) {
    Evidence {
        from = List.copyOf(from);
    }
}
