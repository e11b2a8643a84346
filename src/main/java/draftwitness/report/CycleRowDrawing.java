package draftwitness.report;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.Outcome;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.util.List;
import java.util.Locale;

/**
 * All cycles of a session in one row (SVG), one mark each: its shape tells the outcome, its height the worst margin.
 * Black and grey alone. Pure.
 */
final class CycleRowDrawing {
    private static final int WIDTH = 720;
    private static final int LEFT = 60;
    private static final int HEIGHT = 150;
    private static final int FLOOR = 112;
    private static final int CEILING = 16;
    private static final String FONT = "font-family=\"Roboto, sans-serif\" font-size=\"11\"";

    private CycleRowDrawing() {}

    /**
     * The row as one {@code svg} element.
     *
     * @param cycles at least one
     */
    static String of(List<Cycle> cycles, Setup setup, Unit unit) {
        Markup svg = new Markup();
        svg.raw("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + WIDTH + "\" height=\"" + HEIGHT
                + "\" viewBox=\"0 0 " + WIDTH + " " + HEIGHT + "\" role=\"img\"><title>Row of cycles</title>");
        double most = cycles.stream()
                .filter(c -> c.margin() != null)
                .mapToDouble(c -> c.margin().p01Pascals())
                .max()
                .orElse(0);
        double top = Math.max(most * 1.1, 0.75 * Unit.INCH_OF_WATER.inBase());
        boolean margins = setup.pressureSwitch() != null;
        if (margins) {
            level(svg, 0, top, "no margin", "stroke=\"#000\" stroke-width=\"0.8\"");
            double thin = 0.25 * Unit.INCH_OF_WATER.inBase();
            level(
                    svg,
                    thin,
                    top,
                    String.format(Locale.ROOT, "%.3g %s", unit.fromBase(thin), unit.symbol()),
                    "stroke=\"#777\" stroke-dasharray=\"4 3\" stroke-width=\"0.6\"");
        }
        double pitch = Math.min(44, (WIDTH - LEFT - 10.0) / cycles.size());
        int every = (int) Math.ceil(26 / pitch);
        for (int i = 0; i < cycles.size(); i++) {
            Cycle c = cycles.get(i);
            double x = LEFT + (i + 0.5) * pitch;
            double y = c.margin() == null ? FLOOR : y(c.margin().p01Pascals(), top);
            mark(svg, c.outcome(), x, y, Math.min(8, pitch * 0.4));
            if (i % every == 0) {
                svg.raw("<text x=\"").number(x, 1);
                svg.raw("\" y=\"" + (HEIGHT - 8) + "\" text-anchor=\"middle\" " + FONT + ">" + c.index() + "</text>");
            }
        }
        return svg.raw("</svg>").toString();
    }

    private static double y(double marginPascals, double top) {
        double share = Math.max(-0.15, Math.min(1, marginPascals / top));
        return FLOOR - share * (FLOOR - CEILING);
    }

    private static void level(Markup svg, double pascals, double top, String words, String style) {
        svg.raw("<line x1=\"" + LEFT + "\" x2=\"" + WIDTH + "\" y1=\"").number(y(pascals, top), 1);
        svg.raw("\" y2=\"").number(y(pascals, top), 1).raw("\" " + style + "/>");
        svg.raw("<text x=\"" + (LEFT - 5) + "\" y=\"").number(y(pascals, top) + 4, 1);
        svg.raw("\" text-anchor=\"end\" " + FONT + ">").text(words).raw("</text>");
    }

    /**
     * A stem from the floor with a head: a full disc for heat, a ring when cut off, a cross for failure, a box for
     * lockout.
     */
    private static void mark(Markup svg, Outcome outcome, double x, double y, double r) {
        svg.raw("<line x1=\"")
                .number(x, 1)
                .raw("\" x2=\"")
                .number(x, 1)
                .raw("\" y1=\"" + FLOOR + "\" y2=\"")
                .number(y, 1);
        svg.raw("\" stroke=\"#999\" stroke-width=\"1\"/>");
        switch (outcome) {
            case HEATED -> circle(svg, x, y, r * 0.7, "#666");
            case INCOMPLETE -> circle(svg, x, y, r * 0.7, "#fff");
            case LOCKOUT -> {
                svg.raw("<rect x=\"")
                        .number(x - r, 1)
                        .raw("\" y=\"")
                        .number(y - r, 1)
                        .raw("\" width=\"")
                        .number(2 * r, 1);
                svg.raw("\" height=\"").number(2 * r, 1).raw("\" fill=\"#000\"/>");
            }
            case FAILED_TO_PROVE, FAILED_TO_LIGHT, FLAME_LOST, DRAFT_LOST -> {
                String d = String.format(
                        Locale.ROOT,
                        "M%.1f %.1fL%.1f %.1fM%.1f %.1fL%.1f %.1f",
                        x - r,
                        y - r,
                        x + r,
                        y + r,
                        x - r,
                        y + r,
                        x + r,
                        y - r);
                svg.raw("<path d=\"" + d + "\" stroke=\"#000\" stroke-width=\"2\"/>");
            }
        }
    }

    private static void circle(Markup svg, double x, double y, double r, String fill) {
        svg.raw("<circle cx=\"")
                .number(x, 1)
                .raw("\" cy=\"")
                .number(y, 1)
                .raw("\" r=\"")
                .number(r, 1);
        svg.raw("\" fill=\"" + fill + "\" stroke=\"#000\" stroke-width=\"1\"/>");
    }
}
