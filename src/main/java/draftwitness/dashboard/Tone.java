package draftwitness.dashboard;

/** How much a text wants to be noticed. The text itself always says why; colour only helps. */
public enum Tone {
    NORMAL,
    QUIET,
    ATTENTION,
    DANGER
}
