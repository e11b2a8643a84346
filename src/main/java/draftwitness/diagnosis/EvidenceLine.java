package draftwitness.diagnosis;

import java.util.List;

/**
 * What one piece of evidence says about one cause.
 *
 * @param evidence identifier of the kind of evidence or of the check, for example {@code movement}
 * @param outcome identifier of what was seen
 * @param text what was seen, in plain words
 * @param bits log-odds to base 2: by how much it speaks for the cause (positive) or against it, compared with all other
 *     causes as common as they are
 * @param why why that is so
 * @param source how far to trust the reason: {@code std}, {@code physics}, {@code practice} or {@code memory}
 * @param from the readings it comes from, oldest first; empty for a person's answer
 */
public record EvidenceLine(
        String evidence, String outcome, String text, double bits, String why, String source, List<Seen> from) {
    public EvidenceLine {
        from = List.copyOf(from);
    }
}
