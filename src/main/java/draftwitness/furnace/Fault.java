package draftwitness.furnace;

/**
 * One thing that is wrong, and how it grows.
 *
 * @param cause what
 * @param severity how bad in the end, above 0, up to 1
 * @param fromSeconds when it begins
 * @param overSeconds how long it takes to grow, linearly; 0 for at once
 * @param untilSeconds when it is over; infinite for never
 */
record Fault(Cause cause, double severity, double fromSeconds, double overSeconds, double untilSeconds) {
    Fault {
        if (!(severity > 0 && severity <= 1 && fromSeconds >= 0 && overSeconds >= 0 && untilSeconds > fromSeconds)) {
            throw new IllegalArgumentException("severity " + severity + " from " + fromSeconds + " over " + overSeconds
                    + " until " + untilSeconds);
        }
    }

    /** Severity now, 0 to 1. */
    double at(double seconds) {
        if (seconds < fromSeconds || seconds >= untilSeconds) {
            return 0;
        }
        return overSeconds == 0 ? severity : severity * Math.min(1, (seconds - fromSeconds) / overSeconds);
    }
}
