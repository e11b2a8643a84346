package draftwitness.diagnosis.guided;

import java.util.List;

/**
 * What readings say so far.
 *
 * @param grade how it came out
 * @param verdict one or a few plain sentences
 * @param figures the numbers behind them, most telling first
 * @param remarks what limits them
 */
record Judgement(Grade grade, String verdict, List<Figure> figures, List<String> remarks) {
    Judgement {
        figures = List.copyOf(figures);
        remarks = List.copyOf(remarks);
    }

    /** Not enough to tell. */
    static Judgement undecided(String why) {
        return new Judgement(Grade.UNDECIDED, why, List.of(), List.of());
    }
}
