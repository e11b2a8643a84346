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
    private static final int PAD = 14;

    private final Look look;

    HeaderPainter(Look look) {
        this.look = look;
    }

    void paint(Graphics2D graphics, Rectangle area, LaneFrame lane) {
        Graphics2D g = Look.smooth(graphics);
        g.clip(area);
        if (lane.ribbon()) {
            slim(g, area, lane.header());
        } else {
            tall(g, area, lane.header());
        }
        g.dispose();
    }

    private void tall(Graphics2D g, Rectangle area, LaneHeader header) {
        int x = area.x + look.px(PAD);
        int right = area.x + area.width - look.px(PAD);
        int titleBase = area.y + look.px(6 + TITLE);
        titleAndRole(g, header, x, right, titleBase);
        int bottom = area.y + area.height - look.px(8);
        remark(g, header, x, right, bottom);
        figure(g, header, right, titleBase + look.px(2), bottom - look.px(NOTE + 3));
    }

    private void titleAndRole(Graphics2D g, LaneHeader header, int x, int right, int baseline) {
        g.setFont(look.bold(TITLE));
        g.setColor(look.ink(Tone.NORMAL));
        g.drawString(header.title(), x, baseline);
        int after = x + g.getFontMetrics().stringWidth(header.title()) + look.px(10);
        g.setFont(look.font(ROLE));
        g.setColor(look.ink(Tone.QUIET));
        String role = header.tap().role();
        int width = g.getFontMetrics().stringWidth(role);
        if (right - width >= after) {
            g.drawString(role, right - width, baseline);
        }
    }

    private void figure(Graphics2D g, LaneHeader header, int right, int top, int bottom) {
        int unitWidth = look.px(76);
        double size = Math.max(24, Math.min(LARGEST_FIGURE, (bottom - top) / look.scale() / 0.86));
        int room = right - unitWidth - look.px(8);
        Font font = look.boldFitting(g, header.figure(), size, room - look.px(PAD));
        FontMetrics metrics = g.getFontMetrics(font);
        int digits = (int) Math.round(font.createGlyphVector(g.getFontRenderContext(), "0")
                .getVisualBounds()
                .getHeight());
        int baseline = top + (bottom - top + digits) / 2;
        g.setColor(look.ink(header.figureTone()));
        g.setFont(font);
        g.drawString(header.figure(), room - metrics.stringWidth(header.figure()), baseline);
        g.setFont(look.font(UNIT));
        g.setColor(look.ink(Tone.QUIET));
        g.drawString(
                header.unit(), right - unitWidth, baseline - (header.sense().isEmpty() ? 0 : look.px(19)));
        g.setFont(look.font(NOTE));
        g.drawString(header.sense(), right - unitWidth, baseline);
    }

    /** The source's trouble if there is any, else the note. */
    private void remark(Graphics2D g, LaneHeader header, int x, int right, int baseline) {
        boolean trouble = !header.source().isEmpty();
        String text = trouble ? header.source() : header.note();
        Tone tone = trouble ? header.sourceTone() : header.noteTone();
        g.setFont(tone == Tone.QUIET ? look.font(NOTE) : look.bold(NOTE));
        g.setColor(look.ink(tone));
        int size = look.px(NOTE);
        Glyphs.paint(g, tone, x, baseline - size + look.px(2), size);
        int from = x + Glyphs.width(tone, size);
        g.drawString(Look.fit(g.getFontMetrics(), text, right - from), from, baseline);
    }

    private void slim(Graphics2D g, Rectangle area, LaneHeader header) {
        int x = area.x + look.px(PAD);
        int right = area.x + area.width - look.px(PAD);
        g.setFont(look.bold(26));
        int figureWidth = g.getFontMetrics().stringWidth(header.figure());
        boolean trouble = !header.source().isEmpty();
        int middle = area.y + area.height / 2;
        g.setColor(look.ink(header.figureTone()));
        g.drawString(header.figure(), right - figureWidth, middle + look.px(9));
        int room = right - figureWidth - look.px(10);
        int baseline = trouble ? middle - look.px(2) : middle + look.px(5);
        g.setFont(look.bold(TITLE));
        g.setColor(look.ink(Tone.NORMAL));
        g.drawString(Look.fit(g.getFontMetrics(), header.title(), room - x), x, baseline);
        if (trouble) {
            remark(g, header, x, room, baseline + look.px(NOTE + 3));
        }
    }
}
