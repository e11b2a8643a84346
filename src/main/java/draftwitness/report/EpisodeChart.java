package draftwitness.report;

import draftwitness.input.Durations;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * An episode as a drawing (SVG): one lane a pressure with its scale, contacts as bars, the episode's span shaded. Black
 * and grey alone, told apart by line and label, so that it survives a copier. Pure.
 */
final class EpisodeChart {
    private static final int WIDTH = 720;
    private static final int LEFT = 92;
    private static final int RIGHT = 12;
    private static final int LANE = 118;
    private static final int BAR = 30;
    private static final int GAP = 10;
    private static final int FOOT = 30;
    private static final int PLOT = WIDTH - LEFT - RIGHT;
    private static final String FONT = "font-family=\"Roboto, sans-serif\" font-size=\"11\"";

    private final JobReport.Shown shown;
    private final Setup setup;
    private final Unit unit;
    private final Markup svg = new Markup();

    private EpisodeChart(JobReport.Shown shown, Setup setup, Unit unit) {
        this.shown = shown;
        this.setup = setup;
        this.unit = unit;
    }

    /** The drawing as one {@code svg} element. */
    static String of(JobReport.Shown shown, Setup setup, Unit unit) {
        return new EpisodeChart(shown, setup, unit).draw();
    }

    private String draw() {
        List<Trace> lanes = new ArrayList<>();
        List<Trace> bars = new ArrayList<>();
        for (Trace t : shown.traces()) {
            (t.channel().tap().quantity() == Quantity.CONTACT ? bars : lanes).add(t);
        }
        int height = lanes.size() * (LANE + GAP) + bars.size() * (BAR + GAP) + FOOT;
        svg.raw("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + WIDTH + "\" height=\"" + height
                + "\" viewBox=\"0 0 " + WIDTH + " " + height + "\" role=\"img\">");
        svg.raw("<title>")
                .text(shown.episode().kind().id() + " at "
                        + clock(shown.episode().startNanos()))
                .raw("</title>");
        int bottom = height - FOOT;
        shade(bottom);
        int top = 0;
        for (Trace lane : lanes) {
            lane(lane, top);
            top += LANE + GAP;
        }
        for (Trace bar : bars) {
            bar(bar, top);
            top += BAR + GAP;
        }
        times(bottom);
        return svg.raw("</svg>").toString();
    }

    private double x(long nanos) {
        double share = (nanos - shown.fromNanos()) / (double) (shown.toNanos() - shown.fromNanos());
        return LEFT + Math.max(0, Math.min(1, share)) * PLOT;
    }

    private void shade(int bottom) {
        double from = x(shown.episode().startNanos());
        double to = Math.max(from + 2, x(shown.episode().endNanos()));
        svg.raw("<rect x=\"").number(from, 1).raw("\" y=\"0\" width=\"").number(to - from, 1);
        svg.raw("\" height=\"" + (bottom - GAP) + "\" fill=\"#e4e4e4\" stroke=\"#8a8a8a\" stroke-dasharray=\"2 2\"/>");
    }

    private void lane(Trace trace, int top) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (double v : trace.values()) {
            low = Math.min(low, v);
            high = Math.max(high, v);
        }
        Double setPoint = setPoint(trace.channel().tap());
        if (setPoint != null) {
            low = Math.min(low, -setPoint);
            high = Math.max(high, -setPoint);
        }
        if (trace.values().length == 0) {
            low = 0;
            high = 0;
        }
        Scale scale = Scale.of(low, high, top, showUnit(trace));
        frame(top, LANE);
        scale.ticks(svg);
        if (setPoint != null) {
            line(scale.y(-setPoint), "stroke=\"#000\" stroke-dasharray=\"6 3\" stroke-width=\"0.8\"");
            svg.raw("<text x=\"" + (WIDTH - RIGHT - 3) + "\" y=\"").number(scale.y(-setPoint) - 3, 1);
            svg.raw("\" text-anchor=\"end\" " + FONT + ">set point</text>");
        }
        path(trace, scale);
        name(trace.channel().tap().role(), top);
    }

    private Unit showUnit(Trace trace) {
        Unit own = trace.channel().unit();
        return own.quantity() == Quantity.PRESSURE ? unit : own;
    }

    private @Nullable Double setPoint(Tap tap) {
        Setup.PressureSwitch s = setup.pressureSwitch();
        return tap == Tap.DRAFT_SWITCH && s != null ? s.setPointPascals() : null;
    }

    private void frame(int top, int height) {
        svg.raw("<rect x=\"" + LEFT + "\" y=\"" + top + "\" width=\"" + PLOT + "\" height=\"" + height
                + "\" fill=\"none\" stroke=\"#555\" stroke-width=\"0.7\"/>");
    }

    /** A lane's name, on white so that the trace does not run through it. */
    private void name(String name, int top) {
        svg.raw("<rect x=\"" + (LEFT + 1) + "\" y=\"" + (top + 1) + "\" width=\"" + (name.length() * 7 + 6)
                + "\" height=\"15\" fill=\"#fff\"/>");
        svg.raw("<text x=\"" + (LEFT + 4) + "\" y=\"" + (top + 12) + "\" font-weight=\"bold\" " + FONT + ">")
                .text(name)
                .raw("</text>");
    }

    private void line(double y, String style) {
        svg.raw("<line x1=\"" + LEFT + "\" x2=\"" + (WIDTH - RIGHT) + "\" y1=\"")
                .number(y, 1);
        svg.raw("\" y2=\"").number(y, 1).raw("\" " + style + "/>");
    }

    /**
     * The trace as a line that breaks where readings are missing: lowest and highest reading of each half pixel, so
     * that no dip is lost.
     */
    private void path(Trace trace, Scale scale) {
        long gap = gap(trace);
        svg.raw("<path fill=\"none\" stroke=\"#000\" stroke-width=\"0.9\" stroke-linejoin=\"round\" d=\"");
        long[] t = trace.timesNanos();
        double[] v = trace.values();
        int i = 0;
        while (i < t.length) {
            boolean first = i == 0 || t[i] - t[i - 1] > gap;
            int column = column(t[i]);
            int low = i;
            int high = i;
            int end = i;
            while (end < t.length && column(t[end]) == column && (end == i || t[end] - t[end - 1] <= gap)) {
                low = v[end] < v[low] ? end : low;
                high = v[end] > v[high] ? end : high;
                end++;
            }
            point(first ? "M" : "L", t, v, Math.min(low, high), scale);
            if (low != high) {
                point("L", t, v, Math.max(low, high), scale);
            }
            i = end;
        }
        svg.raw("\"/>");
    }

    private void point(String verb, long[] t, double[] v, int i, Scale scale) {
        svg.raw(verb).number(x(t[i]), 1).raw(" ").number(scale.y(v[i]), 1);
    }

    private int column(long nanos) {
        return (int) Math.floor(2 * x(nanos));
    }

    /** Longer pauses than this are shown as pauses: ten usual ones, at least half a second. */
    private static long gap(Trace trace) {
        long[] t = trace.timesNanos();
        if (t.length < 2) {
            return Long.MAX_VALUE;
        }
        long mean = (t[t.length - 1] - t[0]) / (t.length - 1);
        return Math.max(500_000_000L, 10 * mean);
    }

    /** A contact: full height while closed, a thin line while open. */
    private void bar(Trace trace, int top) {
        svg.raw("<text x=\"" + (LEFT - 6) + "\" y=\"" + (top + 13) + "\" text-anchor=\"end\" " + FONT
                + ">closed</text>");
        svg.raw("<text x=\"" + (LEFT - 6) + "\" y=\"" + (top + BAR - 2) + "\" text-anchor=\"end\" " + FONT
                + ">open</text>");
        long[] t = trace.timesNanos();
        for (int i = 0; i < t.length; i++) {
            long end = i + 1 < t.length ? t[i + 1] : shown.toNanos();
            boolean closed = trace.values()[i] >= 0.5;
            double width = Math.max(0.4, x(end) - x(t[i]));
            svg.raw("<rect x=\"").number(x(t[i]), 1).raw("\" y=\"").number(closed ? top : top + BAR - 2.0, 1);
            svg.raw("\" width=\"").number(width, 1);
            svg.raw("\" height=\"")
                    .number(closed ? BAR : 2, 1)
                    .raw("\" fill=\"" + (closed ? "#9a9a9a" : "#000") + "\"/>");
        }
        frame(top, BAR);
        name(trace.channel().tap().role(), top);
    }

    private void times(int bottom) {
        double seconds = (shown.toNanos() - shown.fromNanos()) / 1e9;
        double step = Scale.step(seconds, 7);
        for (double s = Math.ceil(shown.fromNanos() / 1e9 / step) * step; s <= shown.toNanos() / 1e9; s += step) {
            double x = x(Math.round(s * 1e9));
            svg.raw("<line x1=\"").number(x, 1).raw("\" x2=\"").number(x, 1);
            svg.raw("\" y1=\"" + (bottom - GAP) + "\" y2=\"" + (bottom - GAP + 5) + "\" stroke=\"#555\"/>");
            svg.raw("<text x=\"").number(x, 1);
            svg.raw("\" y=\"" + (bottom + 8) + "\" text-anchor=\"middle\" " + FONT + ">")
                    .text(step < 1 ? String.format(Locale.ROOT, "%.1f s", s) : clock(Math.round(s * 1e9)))
                    .raw("</text>");
        }
    }

    private static String clock(long nanos) {
        return Durations.clock(Math.max(0, nanos));
    }

    /** A lane's scale. */
    private record Scale(double low, double high, double step, int top, Unit unit) {

        static Scale of(double lowBase, double highBase, int top, Unit unit) {
            double low = unit.fromBase(lowBase);
            double high = unit.fromBase(highBase);
            double room = Math.max((high - low) * 0.12, Math.max(Math.abs(high), Math.abs(low)) * 0.01 + 1e-6);
            return new Scale(low - room, high + room, step(high - low + 2 * room, 4), top, unit);
        }

        /** 1, 2 or 5 times a power of ten that gives about so many steps. */
        static double step(double span, int about) {
            double raw = span / about;
            double power = Math.pow(10, Math.floor(Math.log10(raw)));
            double first = raw / power;
            return power * (first < 1.5 ? 1 : first < 3.5 ? 2 : first < 7.5 ? 5 : 10);
        }

        double y(double base) {
            return top + LANE * (high - unit.fromBase(base)) / (high - low);
        }

        void ticks(Markup svg) {
            int decimals = (int) Math.max(0, Math.min(6, Math.ceil(-Math.log10(step) - 1e-9)));
            for (double v = Math.ceil(low / step) * step; v <= high; v += step) {
                double y = top + LANE * (high - v) / (high - low);
                svg.raw("<line x1=\"" + LEFT + "\" x2=\"" + (WIDTH - RIGHT) + "\" y1=\"")
                        .number(y, 1);
                svg.raw("\" y2=\"").number(y, 1).raw("\" stroke=\"#c8c8c8\" stroke-width=\"0.5\"/>");
                svg.raw("<text x=\"" + (LEFT - 6) + "\" y=\"").number(y + 4, 1);
                svg.raw("\" text-anchor=\"end\" " + FONT + ">")
                        .number(v == 0 ? 0.0 : v, decimals)
                        .raw("</text>");
            }
            svg.raw("<text x=\"4\" y=\"" + (top + 13) + "\" " + FONT + ">")
                    .text(unit.symbol())
                    .raw("</text>");
        }
    }
}
