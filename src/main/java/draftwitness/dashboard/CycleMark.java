package draftwitness.dashboard;

/**
 * One cycle in the row of cycles, ready to paint.
 *
 * @param index 1 for the first of the session
 * @param span from start to end
 * @param sign how it ended, as a shape
 * @param tone how much that asks for a person
 * @param word how it ended, in a word or two
 * @param margin weakest margin as a share of a healthy one, negative when suction fell short of the set point; NaN when
 *     none is known
 * @param open true for the last one while it may still change; drawn as an outline
 * @param text all of it in plain words, for hovering and screen readers
 */
public record CycleMark(
        int index, TimeSpan span, Sign sign, Tone tone, String word, double margin, boolean open, String text) {

    /** How a cycle ended, as a shape that is told apart without colour. */
    public enum Sign {
        /** A filled round. */
        HEATED,
        /** An arrow down, its tip cut by a bar: air flow was never proved. */
        NOT_PROVED,
        /** A cross. */
        NOT_LIT,
        /** A half round. */
        FLAME_LOST,
        /** An arrow down. */
        DRAFT_LOST,
        /** A filled square with a bar through it. */
        LOCKOUT,
        /** A ring: cut off, or not over. */
        UNSURE
    }
}
