package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.Controls;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.Findings;
import draftwitness.dashboard.Questions;
import draftwitness.dashboard.SessionChooser;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SetupEditor;
import draftwitness.dashboard.StartModel;
import draftwitness.dashboard.Words;
import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.awt.Dimension;
import java.awt.GraphicsEnvironment;
import java.awt.Rectangle;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.nio.file.Path;
import java.time.ZoneOffset;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ScrollPaneConstants;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import javax.swing.WindowConstants;

/** The dashboard's window. Looks at its model fifteen times a second and paints what is new. Event dispatch thread. */
public final class DashboardWindow {
    private static final int REFRESH_MILLIS = 66;
    private static final Dimension USUAL_SIZE = new Dimension(1366, 768);

    private final DashboardModel model;
    private final Desk desk;
    private final StartModel start;
    private final JFrame window = new JFrame(Words.get("app.name"));
    private final Timer timer = new Timer(REFRESH_MILLIS, e -> refresh());
    private boolean editing;
    private Parts parts;

    /** The components, made anew when theme or text size change. */
    private record Parts(
            Look look,
            TopBar top,
            BannerBar banner,
            WorkBar work,
            SequenceBar sequence,
            NoticeBar notice,
            PhaseRibbonView phases,
            FindingsView findings,
            JPanel cards,
            StartView start,
            SetupView setup,
            GuidedView guided,
            LanesView lanes,
            NotesPanel notes,
            CompareView compare,
            TimeAxisView axis,
            OverviewView overview,
            TransportBar transport) {}

    private DashboardWindow(DashboardModel model, Desk desk, StartModel start) {
        this.model = model;
        this.desk = desk;
        this.start = start;
        this.parts = makeParts();
        arrange(parts);
        window.setIconImages(AppIcon.images());
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
     * @param chooser starts demo, instruments and recordings, and is told when the window has closed
     * @param setups keeps the setups of appliances
     * @param folder where recordings are looked for first
     */
    public static DashboardWindow open(
            DashboardModel model, SessionChooser chooser, SetupEditor.Store setups, Path folder) {
        SwingQuestions questions = new SwingQuestions(folder);
        DashboardWindow window = open(model, chooser, setups, questions);
        questions.ownedBy(window.window);
        return window;
    }

    /** Opens the window with questions asked in another way than by dialogs. */
    static DashboardWindow open(
            DashboardModel model, SessionChooser chooser, SetupEditor.Store setups, Questions questions) {
        ThemeSetup.install(model.settings());
        StartModel start = new StartModel(chooser, new SetupEditor(setups));
        DashboardWindow window = new DashboardWindow(model, new Desk(model, chooser, questions), start);
        window.show();
        return window;
    }

    private void show() {
        Rectangle screen = GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds();
        window.setSize(
                Math.min(screen.width, parts.look().px(USUAL_SIZE.width)),
                Math.min(screen.height, parts.look().px(USUAL_SIZE.height)));
        window.setLocationRelativeTo(null);
        window.setVisible(true);
        parts.lanes().requestFocusInWindow(); // keys work at once, and no button looks pressed by mistake
        timer.start();
        refresh();
    }

    private Parts makeParts() {
        Settings settings = model.settings();
        Look look = ThemeSetup.look(settings);
        ChartFrame nothing = ChartFrame.empty(ZoneOffset.UTC);
        LanesView lanes = new LanesView(model, nothing, look);
        return new Parts(
                look,
                new TopBar(model, desk, look, this::rebuild, this::showKeys),
                new BannerBar(model, look),
                new WorkBar(model.work(), look),
                new SequenceBar(model, look),
                new NoticeBar(model, look),
                new PhaseRibbonView(lanes),
                new FindingsView(model, look),
                new JPanel(new CardLayout()),
                new StartView(start, desk, look, () -> edit(true)),
                new SetupView(start.setup(), model, look, () -> edit(false)),
                new GuidedView(model, look),
                lanes,
                new NotesPanel(model, look),
                new CompareView(model.compare(), desk, look),
                new TimeAxisView(lanes, model),
                new OverviewView(model, nothing, look),
                new TransportBar(model, desk, look));
    }

    private void arrange(Parts p) {
        JPanel head = new JPanel(new BorderLayout());
        head.add(p.top(), BorderLayout.CENTER);
        head.add(p.banner(), BorderLayout.SOUTH);
        JPanel top = new JPanel(new BorderLayout());
        top.add(head, BorderLayout.NORTH);
        top.add(p.work(), BorderLayout.SOUTH);
        JPanel foot = new JPanel(new BorderLayout());
        foot.add(p.axis(), BorderLayout.NORTH);
        foot.add(p.overview(), BorderLayout.CENTER);
        foot.add(Bars.button("cycle.before", p.look(), () -> model.stepCycle(false)), BorderLayout.WEST);
        foot.add(Bars.button("cycle.after", p.look(), () -> model.stepCycle(true)), BorderLayout.EAST);
        JPanel told = new JPanel(new BorderLayout());
        told.add(p.sequence(), BorderLayout.NORTH);
        told.add(p.notice(), BorderLayout.CENTER);
        told.add(p.phases(), BorderLayout.SOUTH);
        JPanel watch = new JPanel(new BorderLayout());
        watch.add(told, BorderLayout.NORTH);
        watch.add(scroll(p.lanes(), p.look().px(10)), BorderLayout.CENTER);
        watch.add(foot, BorderLayout.SOUTH);
        p.cards().add(scroll(p.start(), 0), "start");
        p.cards().add(scroll(p.setup(), 0), "setup");
        p.cards().add(scroll(p.guided(), 0), "guided");
        JPanel beside = new JPanel(new BorderLayout());
        beside.add(watch, BorderLayout.CENTER);
        beside.add(p.notes(), BorderLayout.EAST);
        p.cards().add(beside, "watch");
        p.cards().add(scroll(p.compare(), 0), "compare");
        p.cards().add(p.findings(), "findings");
        JPanel all = new JPanel(new BorderLayout());
        all.add(top, BorderLayout.NORTH);
        all.add(p.cards(), BorderLayout.CENTER);
        all.add(p.transport(), BorderLayout.SOUTH);
        window.setContentPane(all);
        Keys.install(window.getRootPane(), model, desk, this::rebuild, this::showKeys);
    }

    private void showKeys() {
        KeySheet.show(
                window,
                KeySheet.rows(window.getRootPane().getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW)),
                parts.look());
    }

    private static JScrollPane scroll(JComponent view, int side) {
        JScrollPane pane = new JScrollPane(view);
        pane.setBorder(BorderFactory.createEmptyBorder(0, side, 0, side));
        pane.setHorizontalScrollBarPolicy(ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        pane.getVerticalScrollBar().setUnitIncrement(24);
        return pane;
    }

    /** Puts a chosen theme or text size into force. */
    private void rebuild() {
        ThemeSetup.install(model.settings());
        parts = makeParts();
        arrange(parts);
        SwingUtilities.updateComponentTreeUI(window);
        window.revalidate();
        refresh();
        parts.lanes().requestFocusInWindow();
    }

    private void edit(boolean on) {
        editing = on;
        parts.setup().refresh();
        refresh();
    }

    /** Takes what is new from the model. */
    void refresh() {
        desk.tick();
        Parts p = parts;
        if (!window.isShowing() || (window.getExtendedState() & JFrame.ICONIFIED) != 0) {
            return; // a hidden chart does no work
        }
        Controls controls = model.controls();
        p.top().show(controls);
        p.banner().show(controls);
        p.work().show(model.work().shown());
        p.transport().show(controls);
        p.transport().setVisible(controls.opened());
        window.setTitle(Words.get("window.title", controls.title()));
        boolean atStart = model.isAtStart();
        editing &= atStart;
        ((CardLayout) p.cards().getLayout()).show(p.cards(), card(atStart));
        if (atStart) {
            p.start().refresh();
        } else if (model.guided().isOpen()) {
            p.guided().refresh();
        } else if (model.compare().isOpen()) {
            p.compare().show(model.settings().units().common());
        } else {
            showFrame(p);
        }
    }

    private String card(boolean atStart) {
        if (atStart) {
            return editing ? "setup" : "start";
        }
        if (model.guided().isOpen()) {
            return "guided";
        }
        String watching = model.findings().isOpen() ? "findings" : "watch";
        return model.compare().isOpen() ? "compare" : watching;
    }

    private void showFrame(Parts p) {
        ChartFrame frame = model.frame(p.lanes().stripColumns(), p.overview().columns());
        if (p.lanes().show(frame, p.look())) {
            p.axis().repaint();
            p.phases().repaint();
        }
        p.sequence().show(model.sequence(), model.story().episodeCount());
        p.notice().show(model.story().notice());
        Findings found = model.found();
        if (model.findings().isOpen()) {
            p.findings().show(found);
        }
        p.overview().show(frame, p.look());
        p.notes().show(frame);
        p.axis().showNotes();
    }

    /** Closes; asks first when a recording is running, and finishes it. */
    public void close() {
        desk.close(() -> {
            timer.stop();
            window.dispose();
        });
    }

    /** The start screen's model, for tests. */
    StartModel start() {
        return start;
    }

    /** The frame, for tests. */
    JFrame window() {
        return window;
    }
}
