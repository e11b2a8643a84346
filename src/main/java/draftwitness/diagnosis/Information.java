package draftwitness.diagnosis;

/**
 * Probabilities and bits. Pure.
 *
 * <p>Sources: Cover and Thomas, Elements of Information Theory, chapter 2 (entropy, mutual information); Bayes' rule as
 * in MacKay, Information Theory, Inference, and Learning Algorithms (2003), chapter 2.
 */
final class Information {
    private Information() {}

    /**
     * Bayes' rule.
     *
     * @param prior {@code n} probabilities
     * @param likelihood {@code n} likelihoods of what was seen, not all 0 where the prior is above 0
     */
    static double[] posterior(double[] prior, double[] likelihood) {
        double[] out = new double[prior.length];
        double sum = 0;
        for (int i = 0; i < out.length; i++) {
            out[i] = prior[i] * likelihood[i];
            sum += out[i];
        }
        if (!(sum > 0)) {
            throw new IllegalArgumentException("what was seen is impossible under every cause");
        }
        for (int i = 0; i < out.length; i++) {
            out[i] /= sum;
        }
        return out;
    }

    /**
     * Probabilities from logarithms of unnormalised ones.
     *
     * @param logs {@code n} natural logarithms; only their differences matter
     */
    static double[] normalised(double[] logs) {
        double most = Double.NEGATIVE_INFINITY;
        for (double l : logs) {
            most = Math.max(most, l);
        }
        double[] out = new double[logs.length];
        double sum = 0;
        for (int i = 0; i < out.length; i++) {
            out[i] = Math.exp(logs[i] - most);
            sum += out[i];
        }
        for (int i = 0; i < out.length; i++) {
            out[i] /= sum;
        }
        return out;
    }

    /** Entropy of a distribution, in bits. */
    static double entropyBits(double[] p) {
        double h = 0;
        for (double x : p) {
            if (x > 0) {
                h -= x * Math.log(x) / Math.log(2);
            }
        }
        return h;
    }

    /**
     * How often each outcome is to be expected.
     *
     * @param p {@code n} probabilities of causes
     * @param given {@code n} rows: probabilities of the {@code k} outcomes under that cause
     */
    static double[] outcomes(double[] p, double[][] given) {
        double[] out = new double[given[0].length];
        for (int i = 0; i < p.length; i++) {
            for (int k = 0; k < out.length; k++) {
                out[k] += p[i] * given[i][k];
            }
        }
        return out;
    }

    /**
     * Expected information about the cause from a check, in bits: entropy now less the entropy to be expected after it;
     * the mutual information of cause and outcome.
     *
     * @param p {@code n} probabilities of causes
     * @param given {@code n} rows: probabilities of the {@code k} outcomes under that cause
     */
    static double gainBits(double[] p, double[][] given) {
        double[] chance = outcomes(p, given);
        double after = 0;
        for (int k = 0; k < chance.length; k++) {
            if (chance[k] > 0) {
                double[] column = new double[p.length];
                for (int i = 0; i < p.length; i++) {
                    column[i] = given[i][k];
                }
                after += chance[k] * entropyBits(posterior(p, column));
            }
        }
        return Math.max(0, entropyBits(p) - after);
    }
}
