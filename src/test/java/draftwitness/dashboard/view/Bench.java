package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import draftwitness.dashboard.AnswerBook;
import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.FakeRecord;
import draftwitness.dashboard.FakeTicker;
import draftwitness.dashboard.FoundSource;
import draftwitness.dashboard.FurnaceFeed;
import draftwitness.dashboard.Playhead;
import draftwitness.dashboard.Questions;
import draftwitness.dashboard.RecentRecording;
import draftwitness.dashboard.RecordControl;
import draftwitness.dashboard.Recording;
import draftwitness.dashboard.SessionChooser;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SetupEditor;
import draftwitness.dashboard.ShownSession;
import draftwitness.dashboard.Story;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.WatchRequest;
import java.awt.Component;
import java.awt.Container;
import java.awt.GraphicsEnvironment;
import java.awt.image.BufferedImage;
import java.lang.reflect.InvocationTargetException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import javax.swing.AbstractButton;
import javax.swing.JTextField;
import javax.swing.RepaintManager;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Assumptions;

/**
 * A real window with everything behind it faked: what tests and screenshots press. Methods may be called from any
 * thread and run on the event dispatch thread.
 */
final class Bench implements AutoCloseable {
    final FakeRecord record = new FakeRecord();
    final FakeTicker ticker = new FakeTicker();
    final FurnaceFeed feed;
    final SessionModel session;
    final List<String> asked = new ArrayList<>();
    final DashboardModel model;
    Optional<Path> fileAnswer = Optional.of(Path.of("hall.dwrec"));
    boolean finishAnswer = true;
    final List<FoundSource> sources = new ArrayList<>();
    List<RecentRecording> recent = List.of();
    final Map<String, String> setups = new LinkedHashMap<>();
    WatchRequest watched;
    private final EdtGuard guard;
    private final RepaintManager managerBefore;
    private final DashboardWindow window;

    Bench(Settings settings, FurnaceFeed feed) {
        this.feed = feed;
        this.session = feed.played(0);
        this.managerBefore = RepaintManager.currentManager(null);
        this.guard = EdtGuard.install();
        this.model = new DashboardModel(
                ZoneOffset.UTC, Runnable::run, SwingUtilities::invokeLater, settings, s -> asked.add("keep " + s));
        this.window = on(() -> DashboardWindow.open(model, new Chooser(), new Setups(), new Answers()));
    }

    /** Skips the test without a display, and fails it when continuous integration promised one. */
    static void needDisplay() {
        boolean headless = GraphicsEnvironment.isHeadless();
        if (headless && "true".equals(System.getenv("CI"))) {
            fail("CI=true promises a display, and there is none");
        }
        Assumptions.assumeFalse(headless, "no display: start the tests under xvfb-run");
    }

    private final class Chooser implements SessionChooser {
        @Override
        public void startDemo() {
            asked.add("demo");
            showDemo();
        }

        @Override
        public void openRecording(Path file) {
            asked.add("open " + file);
            model.showRecording(recording(1300));
        }

        @Override
        public void watch(WatchRequest request) {
            asked.add("watch");
            watched = request;
            showDemo();
        }

        @Override
        public List<FoundSource> sources() {
            return List.copyOf(sources);
        }

        @Override
        public List<RecentRecording> recent() {
            return recent;
        }

        @Override
        public void compare(Optional<Path> other) {
            asked.add("compare " + other);
        }

        @Override
        public void testAlarm() {
            asked.add("alarm");
        }

        @Override
        public void exportTable(Path target) {
            asked.add("table " + target);
        }

        @Override
        public void savePicture(String title, ChartFrame frame, Theme theme, Path target) {
            asked.add("picture " + target + " of " + frame.lanes().size() + " lanes");
        }

        @Override
        public void closed() {
            asked.add("closed");
        }
    }

    private final class Setups implements SetupEditor.Store {
        @Override
        public List<String> names() {
            return List.copyOf(setups.keySet());
        }

        @Override
        public String read(String name) {
            return setups.get(name);
        }

        @Override
        public void save(String name, String toml) {
            setups.put(name, toml);
        }
    }

    private final class Answers implements Questions {
        @Override
        public Optional<Path> recordingToOpen() {
            return fileAnswer;
        }

        @Override
        public Optional<Path> fileToWrite(String suggestion) {
            asked.add("write " + suggestion + "?");
            return Optional.of(Path.of("out", suggestion));
        }

        @Override
        public boolean finishRecording() {
            asked.add("finish?");
            return finishAnswer;
        }
    }

    /** The live session of the feed. */
    void showDemo() {
        model.showLive("Demo house", session, record);
    }

    Recording recording(int cells) {
        ShownSession shown =
                Objects.requireNonNull(FurnaceFeed.usual().played(cells).shown());
        return new Recording(
                "hall.dwrec",
                shown.header(),
                shown.windows(),
                shown.sources(),
                new Playhead(ticker, shown.windows().extent()));
    }

    /** Shows a live session of a house. */
    void showLive(House.Shown shown) {
        act(() -> model.showLive("House", shown.session(), record, shown.report()::snapshot));
    }

    /** Opens a house as a recording. */
    void showRecording(House house, Story told) {
        showRecording(house, told, AnswerBook.none());
    }

    /** Opens a house as a recording that answers are kept with. */
    void showRecording(House house, Story told, AnswerBook book) {
        ShownSession shown = Objects.requireNonNull(house.whole().shown());
        act(() -> model.showRecording(
                new Recording(
                        "house.dwrec",
                        shown.header(),
                        shown.windows(),
                        shown.sources(),
                        new Playhead(ticker, shown.windows().extent())),
                told,
                book));
    }

    /** Runs on the event dispatch thread and lets everything that follows from it happen. */
    void act(Runnable action) {
        on(() -> {
            action.run();
            return true;
        });
        settle();
    }

    /** Refreshes, lays out and paints until all is up to date. */
    void settle() {
        for (int i = 0; i < 2; i++) {
            on(() -> {
                window.refresh();
                window.window().validate();
                return true;
            });
        }
        assertThat(guard.violations()).isEmpty();
    }

    static <T> T on(Callable<T> work) {
        if (SwingUtilities.isEventDispatchThread()) {
            throw new IllegalStateException("tests call from their own thread");
        }
        List<T> result = new ArrayList<>();
        List<Throwable> trouble = new ArrayList<>();
        try {
            SwingUtilities.invokeAndWait(() -> {
                try {
                    result.add(work.call());
                } catch (Exception e) {
                    trouble.add(e);
                }
            });
        } catch (InterruptedException | InvocationTargetException e) {
            throw new AssertionError(e);
        }
        if (!trouble.isEmpty()) {
            throw new AssertionError(trouble.get(0));
        }
        return result.get(0);
    }

    /** The component of a name; fails when there is none. */
    <C extends Component> C find(Class<C> type, String name) {
        Component found = on(() -> search(window.window(), name));
        assertThat(found).as("component named " + name).isNotNull();
        return type.cast(found);
    }

    private static Component search(Container in, String name) {
        for (Component each : in.getComponents()) {
            if (name.equals(each.getName())) {
                return each;
            }
            if (each instanceof Container inside) {
                Component found = search(inside, name);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    /** Presses a button as a finger would. */
    void press(String name) {
        AbstractButton button = find(AbstractButton.class, name);
        act(button::doClick);
    }

    /** Types a text into a field, in place of what is there. */
    void type(String name, String text) {
        JTextField field = find(JTextField.class, name);
        act(() -> field.setText(text));
    }

    DashboardWindow window() {
        return window;
    }

    /** Makes the window's content so large, in pixels. */
    void size(int width, int height) {
        act(() -> window.window().setSize(width, height));
    }

    /** What the window shows. */
    BufferedImage picture() {
        settle();
        return on(() -> {
            Component content = window.window().getContentPane();
            BufferedImage image =
                    new BufferedImage(content.getWidth(), content.getHeight(), BufferedImage.TYPE_INT_RGB);
            content.printAll(image.createGraphics());
            return image;
        });
    }

    @Override
    public void close() {
        record.state = RecordControl.State.IDLE;
        on(() -> {
            window.close();
            return true;
        });
        RepaintManager.setCurrentManager(managerBefore);
        assertThat(guard.violations()).isEmpty();
    }
}
