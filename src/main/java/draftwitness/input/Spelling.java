package draftwitness.input;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** Which known name somebody may have meant. Pure. */
public final class Spelling {
    private static final int MOST_MISTAKES = 2;
    private static final int SHORTEST_PART = 3;

    private Spelling() {}

    /**
     * Known names close to a word: at most two letters wrong and fewer than half of them, or the word is a part of the
     * name.
     *
     * @return in the order given; maybe none
     */
    public static List<String> near(String word, Collection<String> known) {
        List<String> near = new ArrayList<>();
        for (String name : known) {
            int mistakes = distance(word, name);
            boolean part = word.length() >= SHORTEST_PART && name.contains(word);
            if (part || (mistakes <= MOST_MISTAKES && 2 * mistakes < word.length())) {
                near.add(name);
            }
        }
        return near;
    }

    /** {@code "; did you mean analyze?"}, or an empty text when nothing is near. */
    public static String hint(String word, Collection<String> known) {
        List<String> near = near(word, known);
        return near.isEmpty() ? "" : "; did you mean " + String.join(" or ", near) + "?";
    }

    /** Insertions, deletions and replacements that turn one text into the other (Levenshtein, 1966). */
    static int distance(String a, String b) {
        int[] previous = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            previous[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int[] row = new int[b.length() + 1];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int replace = previous[j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                row[j] = Math.min(replace, Math.min(previous[j], row[j - 1]) + 1);
            }
            previous = row;
        }
        return previous[b.length()];
    }
}
