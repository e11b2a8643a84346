package draftwitness.cycle;

/**
 * Suction beyond the set point, in pascals; negative when suction was short of it.
 *
 * @param minPascals weakest level that lasted
 * @param p01Pascals first percentile
 * @param meanPascals mean
 * @param band how good the first percentile is
 */
public record Margin(double minPascals, double p01Pascals, double meanPascals, Band band) {
    public Margin {
        if (Double.isNaN(minPascals) || Double.isNaN(p01Pascals) || Double.isNaN(meanPascals)) {
            throw new IllegalArgumentException("margin of nothing");
        }
    }
}
