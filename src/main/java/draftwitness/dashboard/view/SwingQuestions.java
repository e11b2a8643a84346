package draftwitness.dashboard.view;

import draftwitness.dashboard.Questions;
import draftwitness.dashboard.Words;
import java.awt.Component;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javax.swing.JFileChooser;
import javax.swing.JOptionPane;
import javax.swing.filechooser.FileNameExtensionFilter;
import org.jspecify.annotations.Nullable;

/** Asks by dialogs. Event dispatch thread. */
final class SwingQuestions implements Questions {
    private @Nullable Component owner;
    private final Path folder;

    /**
     * Questions by dialogs.
     *
     * @param folder where recordings are looked for first
     */
    SwingQuestions(Path folder) {
        this.folder = folder;
    }

    void ownedBy(Component window) {
        owner = window;
    }

    @Override
    public Optional<Path> recordingToOpen() {
        JFileChooser chooser = new JFileChooser(folder.toFile());
        chooser.setDialogTitle(Words.get("ask.open.title"));
        chooser.setFileFilter(new FileNameExtensionFilter(Words.get("ask.open.kind"), "dwrec"));
        return chooser.showOpenDialog(owner) == JFileChooser.APPROVE_OPTION
                ? Optional.of(chooser.getSelectedFile().toPath())
                : Optional.empty();
    }

    @Override
    public Optional<Path> fileToWrite(String suggestion) {
        JFileChooser chooser = new JFileChooser(folder.toFile());
        chooser.setSelectedFile(folder.resolve(suggestion).toFile());
        if (chooser.showSaveDialog(owner) != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        Path file = chooser.getSelectedFile().toPath();
        if (!Files.exists(file)) {
            return Optional.of(file);
        }
        Object[] answers = {Words.get("ask.replace.yes"), Words.get("ask.replace.no")};
        int answer = JOptionPane.showOptionDialog(
                owner,
                Words.get("ask.replace.text", String.valueOf(file.getFileName())),
                Words.get("ask.replace.title"),
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.QUESTION_MESSAGE,
                null,
                answers,
                answers[1]);
        return answer == 0 ? Optional.of(file) : Optional.empty();
    }

    @Override
    public boolean finishRecording() {
        Object[] answers = {Words.get("ask.finish.yes"), Words.get("ask.finish.no")};
        int answer = JOptionPane.showOptionDialog(
                owner,
                Words.get("ask.finish.text"),
                Words.get("ask.finish.title"),
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.QUESTION_MESSAGE,
                null,
                answers,
                answers[1]); // a stray return key must not end a recording
        return answer == 0;
    }
}
