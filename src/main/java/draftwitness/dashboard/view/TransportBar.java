package draftwitness.dashboard.view;

import draftwitness.dashboard.Controls;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.Figures;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;

/** Below the lanes: record and stop, or play and step; the state in one line; follow and span. EDT. */
final class TransportBar extends JPanel {
    private static final Double[] SPEEDS = {0.25, 0.5, 1.0, 2.0, 4.0, 10.0, 30.0, 60.0};

    private final Look look;
    private final JPanel live = row();
    private final JPanel replay = row();
    private final JButton record;
    private final JButton stop;
    private final JButton play;
    private final JComboBox<Speed> speed = new JComboBox<>();
    private final JLabel state;
    private final JToggleButton measure;
    private final JToggleButton follow;
    private final JToggleButton notes;
    private final transient DashboardModel model;
    private final JComboBox<SpanChoice> span = new JComboBox<>(SpanChoice.values());

    private record Speed(double times) {
        @Override
        public String toString() {
            return Figures.speed(times);
        }
    }

    TransportBar(DashboardModel model, Desk desk, Look look) {
        super(new MigLayout("insets 6 24 10 12, fillx, gap 8", "[][grow,fill][][][][]", "[center]"));
        this.look = look;
        this.model = model;
        setName("transport");
        record = Bars.button("record", look, desk::record);
        stop = Bars.button("stop", look, desk::stop);
        record.setFont(look.bold(17));
        stop.setFont(look.bold(17));
        record.setIcon(new ShapeIcon(
                ShapeIcon.Shape.RECORD, look.px(16), look.palette().danger()));
        stop.setIcon(
                new ShapeIcon(ShapeIcon.Shape.STOP, look.px(16), look.palette().ink()));
        play = Bars.button("play", look, model::togglePlay);
        state = Bars.label("state", look.font(16));
        measure = Bars.toggle("measure", look, model::toggleMeasuring);
        notes = Bars.toggle("notes.toggle", look, model.notes()::toggle);
        follow = Bars.toggle("follow", look, model::toggleFollow);
        wireSpeed(model);
        Bars.name(span, "span");
        span.setFont(look.font(15));
        span.setPreferredSize(new Dimension(look.px(100), look.px(Bars.TOUCH)));
        span.addActionListener(e -> {
            SpanChoice chosen = span.getItemAt(span.getSelectedIndex());
            if (chosen != null && span.isEnabled() && !showing) {
                model.choose(chosen);
            }
        });
        live.add(record, "hmin 52, wmin 130");
        live.add(stop, "hmin 52, wmin 110");
        replay.add(Bars.button("back", look, () -> model.step(-1)), "hmin 52");
        replay.add(play, "hmin 52, wmin 110");
        replay.add(Bars.button("forward", look, () -> model.step(1)), "hmin 52");
        replay.add(speed, "hmin 52");
        replay.setVisible(false);
        JPanel either = new JPanel(new MigLayout("insets 0, gap 0, hidemode 3"));
        either.add(live);
        either.add(replay);
        add(either);
        add(state, "wmin 0, gapleft 8");
        add(notes);
        add(measure);
        add(follow);
        add(span);
    }

    private boolean showing;

    private static JPanel row() {
        return new JPanel(new MigLayout("insets 0, gap 8"));
    }

    private void wireSpeed(DashboardModel model) {
        for (double times : SPEEDS) {
            speed.addItem(new Speed(times));
        }
        Bars.name(speed, "speed");
        speed.setFont(look.font(15));
        speed.addActionListener(e -> {
            Speed chosen = speed.getItemAt(speed.getSelectedIndex());
            if (chosen != null && !showing) {
                model.speed(chosen.times());
            }
        });
    }

    void show(Controls controls) {
        showing = true;
        live.setVisible(!controls.replay());
        replay.setVisible(controls.replay());
        record.setEnabled(controls.canRecord());
        stop.setEnabled(controls.canStop());
        Bars.text(state, controls.state());
        state.setToolTipText(controls.state());
        Tone tone = controls.stateTone();
        state.setForeground(look.ink(tone));
        state.setIcon(stateIcon(controls));
        String playKey = controls.playing() ? "pause" : "play";
        if (!Words.get(playKey).equals(play.getText())) {
            play.setText(Words.get(playKey));
            play.getAccessibleContext().setAccessibleName(Words.get(playKey));
        }
        follow.setSelected(controls.following());
        measure.setSelected(controls.measuring());
        notes.setSelected(model.notes().isOpen());
        speed.setSelectedItem(new Speed(controls.speed()));
        span.setSelectedItem(controls.span());
        showing = false;
    }

    private ShapeIcon stateIcon(Controls controls) {
        if (controls.recording()) {
            return new ShapeIcon(
                    ShapeIcon.Shape.RECORD, look.px(14), look.palette().danger());
        }
        return controls.stateTone() == Tone.DANGER
                ? new ShapeIcon(
                        ShapeIcon.Shape.DANGER, look.px(16), look.palette().danger())
                : new ShapeIcon(ShapeIcon.Shape.NONE, 0, 0);
    }
}
