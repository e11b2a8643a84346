package draftwitness.dashboard.view;

import draftwitness.dashboard.StartModel;
import draftwitness.dashboard.Words;
import draftwitness.reading.Tap;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Point2D;
import java.util.EnumMap;
import java.util.Map;
import javax.accessibility.AccessibleRole;

/** The drawing of the furnace with a button at every tap. Event dispatch thread. */
final class SchematicView extends Painted {
    private final transient StartModel model;
    private final transient Look look;
    private final transient Map<Tap, TapButton> buttons = new EnumMap<>(Tap.class);

    SchematicView(StartModel model, Look look, Runnable changed) {
        super(AccessibleRole.PANEL);
        this.model = model;
        this.look = look;
        setName("schematic");
        getAccessibleContext().setAccessibleName(Words.get("schematic.name"));
        for (Tap tap : Tap.values()) {
            TapButton button = new TapButton(tap, look, () -> {
                model.press(tap);
                changed.run();
            });
            buttons.put(tap, button);
            add(button);
        }
    }

    /** Shows what is connected now. */
    void refresh() {
        buttons.forEach((tap, button) -> button.show(model.connected().get(tap), model.canPress(tap)));
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(640), look.px(490));
    }

    @Override
    public Dimension getMinimumSize() {
        return new Dimension(look.px(480), look.px(370));
    }

    @Override
    public void doLayout() {
        Rectangle area = new Rectangle(0, 0, getWidth(), getHeight());
        buttons.forEach((tap, button) -> {
            Point2D at = FurnaceDrawing.toPixels(FurnaceDrawing.place(tap), area);
            Dimension size = button.getPreferredSize();
            int x = (int) Math.round(at.getX() - size.width / 2.0);
            int y = (int) Math.round(at.getY() - look.px(16));
            button.setBounds(Math.max(0, Math.min(getWidth() - size.width, x)), y, size.width, size.height);
        });
    }

    @Override
    protected void paintComponent(Graphics g) {
        g.setColor(Look.color(look.palette().lane()));
        g.fillRoundRect(0, 0, getWidth(), getHeight(), look.px(12), look.px(12));
        new FurnaceDrawing(look).paint((Graphics2D) g, new Rectangle(0, 0, getWidth(), getHeight()));
    }
}
