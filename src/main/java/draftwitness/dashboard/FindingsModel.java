package draftwitness.dashboard;

import draftwitness.cycle.CycleReport;
import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.Check;
import draftwitness.diagnosis.Diagnosis;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.reading.Channel;
import draftwitness.setup.Setup;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Executor;
import org.jspecify.annotations.Nullable;

/**
 * The findings page: what was seen, likely causes, checks and their answers. User-interface thread; weighing happens on
 * the background executor, at most one at a time, and only while the page is open.
 */
public final class FindingsModel {
    private final Executor background;
    private final Executor ui;
    private AnswerBook book = AnswerBook.none();
    private final List<Answer> answers = new ArrayList<>();
    private final Deque<List<Answer>> before = new ArrayDeque<>();
    private boolean kept;
    private boolean open;
    private boolean weighing;
    private @Nullable Question asked;
    private Findings findings = Findings.NONE;

    private record Question(List<Channel> channels, Setup setup, CycleReport report, List<Answer> answers) {}

    FindingsModel(Executor background, Executor ui) {
        this.background = background;
        this.ui = ui;
    }

    /** Another session is looked at. */
    void follow(AnswerBook next) {
        book = next;
        answers.clear();
        before.clear();
        kept = false;
        open = false;
        asked = null;
        findings = Findings.NONE;
    }

    public boolean isOpen() {
        return open;
    }

    /** Opens the page, or goes back to the strips. */
    public void toggle() {
        open = !open;
    }

    void close() {
        open = false;
    }

    /** Answers a check; causes follow at once. */
    public void answer(String check, String outcome) {
        Answer answer = new Answer(check, outcome, Words.get("answer.from"));
        remember();
        answers.removeIf(a -> a.check().equals(check));
        answers.add(answer);
        book.keep(answer);
    }

    /** Takes the last answer back. */
    public void undo() {
        List<Answer> earlier = before.pollLast();
        if (earlier == null) {
            return;
        }
        for (Answer a : answers) {
            if (!earlier.contains(a)) {
                book.remove(a.check());
            }
        }
        for (Answer a : earlier) {
            if (!answers.contains(a)) {
                book.keep(a);
            }
        }
        answers.clear();
        answers.addAll(earlier);
    }

    private void remember() {
        before.addLast(List.copyOf(answers));
    }

    /** What the page shows, as far as it is worked out. */
    Findings look(List<Channel> channels, Setup setup, CycleReport report) {
        takeKept();
        Question now = new Question(channels, setup, report, List.copyOf(answers));
        if (open && !weighing && !now.equals(asked)) {
            weighing = true;
            asked = now;
            background.execute(() -> {
                DiagnosisReport weighed = Diagnosis.of(now.channels(), now.setup(), now.report(), now.answers());
                ui.execute(() -> weighed(now, weighed));
            });
        }
        return findings;
    }

    private void takeKept() {
        if (!kept && !book.kept().isEmpty()) {
            kept = true;
            for (Answer a : book.kept()) {
                if (answers.stream().noneMatch(b -> b.check().equals(a.check()))) {
                    answers.add(a);
                }
            }
        }
    }

    private void weighed(Question question, DiagnosisReport report) {
        weighing = false;
        if (!Objects.equals(asked, question)) {
            return; // another session meanwhile
        }
        findings = new Findings(
                report.conclusion(),
                FindingsWriter.seen(question.report()),
                FindingsWriter.causes(report),
                FindingsWriter.checks(report),
                question.answers().stream().map(FindingsModel::words).toList(),
                before.isEmpty() || question.answers().isEmpty()
                        ? ""
                        : words(question.answers().get(question.answers().size() - 1)));
    }

    private static String words(Answer a) {
        Check check = Check.ofId(a.check()).orElseThrow();
        return Words.get(
                "answer.words",
                check.title(),
                check.outcome(a.outcome()).orElseThrow().text());
    }
}
