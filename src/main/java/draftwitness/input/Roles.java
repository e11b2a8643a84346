package draftwitness.input;

import draftwitness.reading.Tap;
import java.util.Arrays;

/** Taps as people write them: by their role. Pure. */
public final class Roles {
    private Roles() {}

    /**
     * The tap of a role such as {@code draft.switch}.
     *
     * @throws InputException on anything else; the message names roles that are spelled like it, and all there are
     */
    public static Tap parse(String role) throws InputException {
        return Tap.ofRole(role).orElseThrow(() -> new InputException(unknown(role)));
    }

    private static String unknown(String role) {
        String shown = role.length() <= 40 ? role : role.substring(0, 40) + "...";
        String hint = role.length() > 40
                ? ""
                : Spelling.hint(role, Arrays.stream(Tap.values()).map(Tap::role).toList());
        return "'" + shown + "' is not a role" + (hint.isEmpty() ? ";" : hint) + " known: " + Tap.roles();
    }
}
