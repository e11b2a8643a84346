package draftwitness.dashboard;

/**
 * Colours by what they are for, as 0xRRGGBB. Quiet by design: strong colour is kept for what is abnormal. A test holds
 * text to a contrast of 4.5:1 and lines to 3:1 on the grounds they are drawn on (WCAG 2.2, 1.4.3 and 1.4.11).
 *
 * @param ground behind everything
 * @param lane behind the strips
 * @param ink text and figures
 * @param quietInk secondary text
 * @param grid grid lines; decoration, no contrast asked
 * @param trace a channel's line
 * @param setPoint set point line and its label
 * @param breakPoint break line and its label, dashed
 * @param danger text and marks of what went wrong
 * @param attention text and marks of what needs a look
 * @param contactClosed filled part of a contact ribbon
 * @param contactOpen outline of the open part
 * @param playhead the playhead, cursor and measure lines
 * @param gap ground of missing readings, drawn hatched
 * @param accent focus and the pressed choice
 * @param onAccent text on {@code accent}
 */
public record Palette(
        int ground,
        int lane,
        int ink,
        int quietInk,
        int grid,
        int trace,
        int setPoint,
        int breakPoint,
        int danger,
        int attention,
        int contactClosed,
        int contactOpen,
        int playhead,
        int gap,
        int accent,
        int onAccent) {

    /** On a warm light ground. */
    static final Palette LIGHT = new Palette(
            0xF5F4F0, 0xFFFFFF, 0x1B1F23, 0x555B61, 0xDDDBD4, 0x1F4E79, 0x8A4B00, 0x8A4B00, 0xB3261E, 0x8F4A00,
            0x3D6B5C, 0x6B7075, 0x7A2E6B, 0xE9E6DD, 0x0B57A4, 0xFFFFFF);

    /** On slate. */
    static final Palette DARK = new Palette(
            0x15191C, 0x1D2327, 0xECEAE4, 0xA9AFB4, 0x333B41, 0x8CC4F0, 0xE8B04B, 0xE8B04B, 0xFF8A80, 0xFFB95C,
            0x7CC7AE, 0x8D959B, 0xE3A1D2, 0x262D32, 0x9CCBFA, 0x0E1113);
}
