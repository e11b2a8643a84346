package draftwitness.dashboard;

import draftwitness.diagnosis.Answer;
import java.util.List;

/**
 * Keeps a person's answers with the recording that is looked at; the program behind the window fills this in. Called on
 * the user-interface thread; returns at once, writing happens behind.
 */
public interface AnswerBook {

    /** Answers that were kept before, oldest first; empty until they were read. */
    List<Answer> kept();

    /** Keeps an answer, in place of an earlier one to the same check. */
    void keep(Answer answer);

    /** Takes the answer to a check away. */
    void remove(String check);

    /** Keeps nothing: answers count while the session is looked at. */
    static AnswerBook none() {
        return new AnswerBook() {
            @Override
            public List<Answer> kept() {
                return List.of();
            }

            @Override
            public void keep(Answer answer) {}

            @Override
            public void remove(String check) {}
        };
    }
}
