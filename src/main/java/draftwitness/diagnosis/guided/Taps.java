package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;

/** Names of taps inside sentences. */
final class Taps {
    private Taps() {}

    static String name(Tap tap) {
        return switch (tap) {
            case DRAFT_SWITCH -> "switch";
            case DRAFT_INDUCER -> "inducer";
            case DRAFT_COLLECTOR -> "collector";
            case DRAFT_BURNER_BOX -> "burner box";
            case DRAFT_VENT -> "vent";
            case GAS_INLET -> "gas inlet";
            case GAS_MANIFOLD -> "manifold";
            case STATIC_RETURN -> "return";
            case STATIC_SUPPLY -> "supply";
            case STATIC_BEFORE_COIL -> "before the coil";
            case STATIC_AFTER_COIL -> "after the coil";
            case STATIC_AFTER_FILTER -> "after the filter";
            default -> tap.role();
        };
    }
}
