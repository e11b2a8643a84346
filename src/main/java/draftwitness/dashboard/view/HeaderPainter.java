package draftwitness.dashboard.view;

import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.LaneHeader;
import draftwitness.dashboard.Tone;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;

/**
 * Paints what stands beside a strip. The figure is as large as the lane allows: capitals of 10 mm can be read at two
 * metres (20 minutes of arc, as ISO 9241-303 prefers; from memory), which takes a font of about 52 design pixels.
 */
final class HeaderPainter {
    private static final double TITLE = 15;
    private static final double ROLE = 12;
    private static final double NOTE = 14;
    private static final double UNIT = 20;
    private static final double LARGEST_FIGURE = 76;
    private static final double LEAST_FIGURE = 24;
    private static final int PAD = 14;
    private static final int UNIT_WIDTH = 84;

    /** Lanes at least so high have the remark below the figure, lower ones beside it. */
    private static final int ROOMY = 100;

    private static final int LOW_UNIT_WIDTH = 56;
    private static final int LOW_FIGURE_WIDTH = 122;

    private final Look look;

    HeaderPainter(Look look) {
        this.look = look;
    }

    void paint(Graphics2D graphics, Rectangle area, LaneFrame lane) {
        Graphics2D g = Look.smooth(graphics);
        g.clip(area);
        int pad = look.px(PAD);
        Rectangle inside = new Rectangle(area.x + pad, area.y, area.width - 2 * pad, area.height);
        if (lane.ribbon()) {
            slim(g, inside, lane.header());
        } else if (area.height >= look.px(ROOMY)) {
            roomy(g, inside, lane.header());
        } else {
            low(g, inside, lane.header());
        }
        g.dispose();
    }

    /** Title, figure and remark below each other. */
    private void roomy(Graphics2D g, Rectangle area, LaneHeader header) {
        int right = area.x + area.width;
        int titleBase = area.y + look.px(6 + TITLE);
        int noteBase = area.y + area.height - look.px(8);
        title(g, header, area.x, titleBase);
        role(g, header, area.x, right, titleBase);
        remark(g, header, new Rectangle(area.x, noteBase - look.px(NOTE), area.width, look.px(NOTE + 4)));
        int unitX = right - look.px(UNIT_WIDTH);
        int top = titleBase + look.px(2);
        Rectangle room = new Rectangle(area.x, top, unitX - look.px(8) - area.x, noteBase - look.px(NOTE + 3) - top);
        int baseline = figure(g, header, room);
        g.setFont(look.font(UNIT));
        g.setColor(look.ink(Tone.QUIET));
        g.drawString(header.unit(), unitX, baseline - (header.sense().isEmpty() ? 0 : look.px(19)));
        g.setFont(look.font(NOTE));
        g.drawString(header.sense(), unitX, baseline);
    }

    /** Title above; below it the remark at the left and the figure at the right. */
    private void low(Graphics2D g, Rectangle area, LaneHeader header) {
        int right = area.x + area.width;
        int titleBase = area.y + look.px(4 + TITLE);
        title(g, header, area.x, titleBase);
        int unitX = right - look.px(LOW_UNIT_WIDTH);
        int figureX = unitX - look.px(LOW_FIGURE_WIDTH);
        int top = titleBase + look.px(2);
        int bottom = area.y + area.height - look.px(3);
        int baseline = figure(g, header, new Rectangle(figureX, top, unitX - look.px(8) - figureX, bottom - top));
        g.setFont(look.font(NOTE));
        g.setColor(look.ink(Tone.QUIET));
        g.drawString(header.unit(), unitX, baseline);
        remark(g, header, new Rectangle(area.x, top + look.px(2), figureX - look.px(8) - area.x, bottom - top));
    }

    /** Contacts: title at the left, state at the right, trouble below the title. */
    private void slim(Graphics2D g, Rectangle area, LaneHeader header) {
        int right = area.x + area.width;
        int middle = area.y + area.height / 2;
        g.setFont(look.bold(26));
        int room = right - g.getFontMetrics().stringWidth(header.figure());
        g.setColor(look.ink(header.figureTone()));
        g.drawString(header.figure(), room, middle + look.px(9));
        boolean trouble = !header.source().isEmpty();
        int baseline = trouble ? middle - look.px(3) : middle + look.px(5);
        title(g, header, area.x, baseline);
        if (trouble) {
            remark(
                    g,
                    header,
                    new Rectangle(area.x, baseline + look.px(4), room - look.px(10) - area.x, look.px(NOTE + 4)));
        }
    }

    private void title(Graphics2D g, LaneHeader header, int x, int baseline) {
        g.setFont(look.bold(TITLE));
        g.setColor(look.ink(Tone.NORMAL));
        g.drawString(header.title(), x, baseline);
    }

    private void role(Graphics2D g, LaneHeader header, int x, int right, int baseline) {
        int after = x + g.getFontMetrics(look.bold(TITLE)).stringWidth(header.title()) + look.px(10);
        g.setFont(look.font(ROLE));
        g.setColor(look.ink(Tone.QUIET));
        String role = header.tap().role();
        int width = g.getFontMetrics().stringWidth(role);
        if (right - width >= after) {
            g.drawString(role, right - width, baseline);
        }
    }

    /** The figure, its right edge in line with those of other lanes; gives its baseline. */
    private int figure(Graphics2D g, LaneHeader header, Rectangle room) {
        double size = Math.max(LEAST_FIGURE, Math.min(LARGEST_FIGURE, room.height / look.scale() / 0.86));
        Font font = look.boldFitting(g, header.figure(), size, room.width);
        int digits = (int) Math.round(font.createGlyphVector(g.getFontRenderContext(), "0")
                .getVisualBounds()
                .getHeight());
        int baseline = room.y + (room.height + digits) / 2;
        g.setColor(look.ink(header.figureTone()));
        g.setFont(font);
        int width = g.getFontMetrics().stringWidth(header.figure());
        g.drawString(header.figure(), room.x + room.width - width, baseline);
        return baseline;
    }

    /** The source's trouble if there is any, else the note; in two lines when one is too short and there is room. */
    private void remark(Graphics2D g, LaneHeader header, Rectangle room) {
        boolean trouble = !header.source().isEmpty();
        String text = trouble ? header.source() : header.note();
        Tone tone = trouble ? header.sourceTone() : header.noteTone();
        g.setFont(tone == Tone.QUIET ? look.font(NOTE) : look.bold(NOTE));
        g.setColor(look.ink(tone));
        FontMetrics metrics = g.getFontMetrics();
        int size = look.px(NOTE);
        int line = look.px(NOTE + 3);
        int x = room.x + Glyphs.width(tone, size);
        int width = room.x + room.width - x;
        Glyphs.paint(g, tone, room.x, room.y + look.px(2), size);
        int cut = room.height >= 2 * line ? lastBlankThatFits(metrics, text, width) : -1;
        if (cut < 0) {
            g.drawString(Look.fit(metrics, text, width), x, room.y + size);
        } else {
            g.drawString(Look.fit(metrics, text.substring(0, cut), width), x, room.y + size);
            g.drawString(Look.fit(metrics, text.substring(cut + 1), width), x, room.y + size + line);
        }
    }

    /** Where to break a text that is too long for a line, or -1 when it is not or cannot be broken. */
    private static int lastBlankThatFits(FontMetrics metrics, String text, int width) {
        if (metrics.stringWidth(text) <= width) {
            return -1;
        }
        int blank = text.lastIndexOf(' ');
        while (blank > 0 && metrics.stringWidth(text.substring(0, blank)) > width) {
            blank = text.lastIndexOf(' ', blank - 1);
        }
        return blank;
    }
}
