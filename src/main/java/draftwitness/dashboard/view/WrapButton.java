package draftwitness.dashboard.view;

import java.awt.Dimension;
import java.awt.Insets;
import javax.swing.JButton;
import javax.swing.SwingConstants;
import javax.swing.plaf.basic.BasicHTML;
import javax.swing.text.View;

/** A button whose text breaks into lines in the width there is. Event dispatch thread. */
final class WrapButton extends JButton {
    private final transient Look look;

    WrapButton(String text, Look look) {
        super(Tips.line(text));
        this.look = look;
        setHorizontalAlignment(SwingConstants.LEFT);
    }

    @Override
    public Dimension getMinimumSize() {
        return new Dimension(look.px(Bars.TOUCH), getPreferredSize().height);
    }

    @Override
    public Dimension getPreferredSize() {
        int parent = getParent() == null ? 0 : getParent().getWidth();
        int width = parent > 0 ? parent - look.px(24) : look.px(380);
        Insets insets = getInsets();
        if (!(getClientProperty(BasicHTML.propertyKey) instanceof View text)) {
            return super.getPreferredSize();
        }
        text.setSize(Math.max(1, width - insets.left - insets.right - look.px(6)), 0);
        int height = (int) Math.ceil(text.getPreferredSpan(View.Y_AXIS)) + insets.top + insets.bottom + look.px(8);
        return new Dimension(width, Math.max(look.px(Bars.TOUCH), height));
    }

    @Override
    public int getBaseline(int width, int height) {
        return -1; // several lines have none
    }
}
