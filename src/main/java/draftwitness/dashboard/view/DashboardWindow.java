package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.Controls;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.Questions;
import draftwitness.dashboard.SessionChooser;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.Words;
import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.GraphicsEnvironment;
import java.awt.Rectangle;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.nio.file.Path;
import java.time.ZoneOffset;
import javax.swing.BorderFactory;
import javax.swing.JFrame;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import javax.swing.WindowConstants;
import org.jspecify.annotations.Nullable;

/** The dashboard's window. Looks at its model fifteen times a second and paints what is new. Event dispatch thread. */
public final class DashboardWindow {
    private static final int REFRESH_MILLIS = 66;
    private static final Dimension USUAL_SIZE = new Dimension(1366, 768);

    private final DashboardModel model;
    private final Desk desk;
    private final JFrame window = new JFrame(Words.get("app.name"));
    private final Timer timer = new Timer(REFRESH_MILLIS, e -> refresh());
    private @Nullable Parts parts;

    /** The components, made anew when theme or text size change. */
    private record Parts(
            Look look,
            TopBar top,
            BannerBar banner,
            LanesView lanes,
            TimeAxisView axis,
            OverviewView overview,
            TransportBar transport) {}

    private DashboardWindow(DashboardModel model, Desk desk) {
        this.model = model;
        this.desk = desk;
        build();
        window.setDefaultCloseOperation(WindowConstants.DO_NOTHING_ON_CLOSE);
        window.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosing(WindowEvent e) {
                close();
            }
        });
    }

    /**
     * Opens the window.
     *
     * @param model what it shows
     * @param chooser starts demo and recordings, and is told when the window has closed
     * @param folder where recordings are looked for first
     */
    public static DashboardWindow open(DashboardModel model, SessionChooser chooser, Path folder) {
        SwingQuestions questions = new SwingQuestions(folder);
        DashboardWindow window = open(model, chooser, questions);
        questions.ownedBy(window.window);
        return window;
    }

    /** Opens the window with questions asked in another way than by dialogs. */
    static DashboardWindow open(DashboardModel model, SessionChooser chooser, Questions questions) {
        ThemeSetup.install(model.settings().theme());
        DashboardWindow window = new DashboardWindow(model, new Desk(model, chooser, questions));
        window.show();
        return window;
    }

    private void show() {
        Rectangle screen = GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds();
        Look look = ThemeSetup.look(model.settings());
        window.setSize(
                Math.min(screen.width, look.px(USUAL_SIZE.width)), Math.min(screen.height, look.px(USUAL_SIZE.height)));
        window.setLocationRelativeTo(null);
        window.setVisible(true);
        focusLanes();
        timer.start();
        refresh();
    }

    /** Keys work at once, and no button looks pressed by mistake. */
    private void focusLanes() {
        if (parts != null) {
            parts.lanes().requestFocusInWindow();
        }
    }

    private Parts build() {
        Settings settings = model.settings();
        Look look = ThemeSetup.look(settings);
        ChartFrame nothing = ChartFrame.empty(ZoneOffset.UTC);
        LanesView lanes = new LanesView(model, nothing, look);
        Parts p = new Parts(
                look,
                new TopBar(model, desk, look, this::rebuild),
                new BannerBar(model, look),
                lanes,
                new TimeAxisView(lanes),
                new OverviewView(model, nothing, look),
                new TransportBar(model, desk, look));
        parts = p;
        JPanel head = new JPanel(new BorderLayout());
        head.add(p.top(), BorderLayout.CENTER);
        head.add(p.banner(), BorderLayout.SOUTH);
        JScrollPane scroll = new JScrollPane(p.lanes());
        scroll.setBorder(BorderFactory.createEmptyBorder(0, look.px(10), 0, look.px(10)));
        JPanel foot = new JPanel(new BorderLayout());
        foot.add(p.axis(), BorderLayout.NORTH);
        foot.add(p.overview(), BorderLayout.CENTER);
        foot.add(p.transport(), BorderLayout.SOUTH);
        JPanel all = new JPanel(new BorderLayout());
        all.add(head, BorderLayout.NORTH);
        all.add(scroll, BorderLayout.CENTER);
        all.add(foot, BorderLayout.SOUTH);
        window.setContentPane(all);
        Keys.install(window.getRootPane(), model, desk, this::rebuild);
        return p;
    }

    /** Puts a chosen theme or text size into force. */
    private void rebuild() {
        ThemeSetup.install(model.settings().theme());
        build();
        SwingUtilities.updateComponentTreeUI(window);
        window.revalidate();
        focusLanes();
        refresh();
    }

    /** Takes what is new from the model. */
    void refresh() {
        desk.tick();
        Parts p = parts;
        if (p == null || !window.isShowing() || (window.getExtendedState() & JFrame.ICONIFIED) != 0) {
            return; // a hidden chart does no work
        }
        Controls controls = model.controls();
        p.top().show(controls);
        p.banner().show(controls);
        p.transport().show(controls);
        ChartFrame frame = model.frame(p.lanes().stripColumns(), p.overview().columns());
        if (p.lanes().show(frame, p.look())) {
            p.axis().repaint();
        }
        p.overview().show(frame, p.look());
        window.setTitle(Words.get("window.title", controls.title()));
    }

    /** Closes; asks first when a recording is running, and finishes it. */
    public void close() {
        desk.close(() -> {
            timer.stop();
            window.dispose();
        });
    }

    /** The frame, for tests. */
    JFrame window() {
        return window;
    }
}
