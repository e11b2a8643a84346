package draftwitness.cycle;

/**
 * One run of the inducer as its suction shows it.
 *
 * @param idleFromNanos since when the inducer was idle before it
 * @param startNanos when suction left idle
 * @param startSeen false when the recording began during the run
 * @param stopNanos when suction left its level for good; for a run that lasts, the time reached
 * @param endNanos when suction was back at idle; for a run that lasts, the time reached
 * @param lasting whether the end has not been seen yet
 * @param zeroPascals reading at idle before the run
 * @param sigmaPascals robust standard deviation of a look at idle
 * @param sign -1 when suction reads negative, +1 when it reads positive (reversed hose or sensor)
 * @param watchedToNanos up to when the level after the stop was watched; for a run that lasts, the time reached
 * @param levelPascals typical suction of the run, positive
 */
record RunSpan(
        long idleFromNanos,
        long startNanos,
        boolean startSeen,
        long stopNanos,
        long endNanos,
        boolean lasting,
        double zeroPascals,
        double sigmaPascals,
        int sign,
        long watchedToNanos,
        double levelPascals) {}
