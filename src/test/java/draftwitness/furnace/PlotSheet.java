package draftwitness.furnace;

import draftwitness.reading.Quantity;
import draftwitness.reading.Step;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;

/**
 * Draws scenarios as a sheet of small charts, from what the simulated instruments read, for people to judge whether the
 * model behaves as furnaces do. Suction is drawn downwards, as it is signed; every reading is inside its column's bar.
 *
 * <p>Arguments: the file to write, the number of columns, then {@code SCENARIO} or {@code SCENARIO@FROM..TO} in
 * seconds; all scenarios if none is given.
 */
final class PlotSheet {
    private static final int WIDTH = 620;
    private static final int HEIGHT = 236;
    private static final int LEFT = 52;
    private static final int PLOT = WIDTH - LEFT - 10;
    private static final Band DRAFT = new Band(166, 134, -500, 240);
    private static final Band GAS = new Band(192, 36, 0, 2600);
    private static final Band FLAME = new Band(192, 36, 0, 6);
    private static final Color[] COLOURS = {
        new Color(0x0072B2),
        new Color(0xD55E00),
        new Color(0x009E73),
        new Color(0xB0518C),
        new Color(0x7F6A00),
        new Color(0x333333)
    };

    private PlotSheet() {}

    private record Panel(Scenario scenario, double from, double to) {
        static Panel of(String text) throws Exception {
            String[] parts = text.split("@|\\.\\.(?!/)", -1);
            Scenario scenario = Scenarios.find(parts[0]);
            return parts.length == 3
                    ? new Panel(scenario, Double.parseDouble(parts[1]), Double.parseDouble(parts[2]))
                    : new Panel(scenario, 0, scenario.durationSeconds());
        }
    }

    private record Band(int bottom, int height, double from, double to) {
        int y(double value) {
            return (int) Math.round(bottom - height * (value - from) / (to - from));
        }
    }

    /** Writes the sheet. */
    public static void main(String[] args) throws Exception {
        System.setProperty("java.awt.headless", "true");
        List<Panel> panels = new ArrayList<>();
        for (int i = 2; i < args.length; i++) {
            panels.add(Panel.of(args[i]));
        }
        if (panels.isEmpty()) {
            Scenarios.list().forEach(s -> panels.add(new Panel(s, 0, s.durationSeconds())));
        }
        write(Path.of(args[0]), Integer.parseInt(args[1]), panels);
    }

    private static void write(Path file, int columns, List<Panel> panels) throws IOException {
        int rows = (panels.size() + columns - 1) / columns;
        BufferedImage image = new BufferedImage(columns * WIDTH, rows * HEIGHT, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setColor(Color.WHITE);
        g.fillRect(0, 0, image.getWidth(), image.getHeight());
        for (int i = 0; i < panels.size(); i++) {
            Graphics2D inner = (Graphics2D) g.create(i % columns * WIDTH, i / columns * HEIGHT, WIDTH, HEIGHT);
            draw(inner, panels.get(i));
            inner.dispose();
        }
        g.dispose();
        ImageIO.write(image, "png", file.toFile());
    }

    private static void draw(Graphics2D g, Panel panel) {
        Simulation run = Simulation.start(panel.scenario(), 1);
        int n = run.sensors().size();
        double[][] low = new double[n][PLOT];
        double[][] high = new double[n][PLOT];
        for (int i = 0; i < n; i++) {
            Arrays.fill(low[i], Double.POSITIVE_INFINITY);
            Arrays.fill(high[i], Double.NEGATIVE_INFINITY);
        }
        run.advanceTo(Math.round(panel.to() * 1e9), (sensor, nanos, count) -> {
            SimulatedSensor s = run.sensors().get(sensor);
            double value = new Step(s.unit(), s.decimals()).inBase(count);
            double t = nanos / 1e9;
            int x = (int) Math.min(PLOT - 1, (t - panel.from()) / (panel.to() - panel.from()) * PLOT);
            if (t >= panel.from()) {
                low[sensor][x] = Math.min(low[sensor][x], value);
                high[sensor][x] = Math.max(high[sensor][x], value);
            }
        });
        labels(g, panel, run);
        traces(g, run, low, high);
    }

    private static void traces(Graphics2D g, Simulation run, double[][] low, double[][] high) {
        g.setClip(0, 30, WIDTH, HEIGHT - 30);
        int contacts = 0;
        for (int i = low.length - 1; i >= 0; i--) { // the first sensor on top
            SimulatedSensor sensor = run.sensors().get(i);
            g.setColor(COLOURS[i % COLOURS.length]);
            g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 10));
            g.drawString(sensor.tap().role(), LEFT + i * 92, HEIGHT - 5);
            Band band = DRAFT;
            if (sensor.tap().quantity() == Quantity.CONTACT) {
                band = new Band(218 - 10 * contacts++, 7, 0, 1);
            } else if (sensor.tap().quantity() == Quantity.CURRENT) {
                band = FLAME;
            } else if (sensor.tap().role().startsWith("gas")) {
                band = GAS;
            }
            trace(g, low[i], high[i], band);
        }
    }

    private static void labels(Graphics2D g, Panel panel, Simulation run) {
        g.setColor(new Color(0xDDDDDD));
        g.drawRect(0, 0, WIDTH - 1, HEIGHT - 1);
        for (int p = -500; p <= 200; p += 100) {
            g.drawLine(LEFT, DRAFT.y(p), LEFT + PLOT, DRAFT.y(p));
        }
        g.setColor(Color.DARK_GRAY);
        g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 10));
        for (int p = -400; p <= 200; p += 200) {
            g.drawString(p + " Pa", 6, DRAFT.y(p) + 4);
        }
        g.drawString(String.format("%.0f ... %.0f s   %s", panel.from(), panel.to(), outcomes(run)), LEFT, 27);
        g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, 12));
        g.drawString(panel.scenario().name(), LEFT, 14);
        g.setColor(Color.RED);
        g.setStroke(new BasicStroke(1, BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL, 0, new float[] {4, 4}, 0));
        int y = DRAFT.y(-panel.scenario().house().rating().makePascals());
        g.drawLine(LEFT, y, LEFT + PLOT, y);
        g.setStroke(new BasicStroke(1));
    }

    private static String outcomes(Simulation run) {
        Map<String, Integer> counts = new TreeMap<>();
        int flutter = 0;
        int sags = 0;
        for (Cycle c : run.truthCycles()) {
            counts.merge(c.outcome() + (c.attempts() > 1 ? " in " + c.attempts() : ""), 1, Integer::sum);
            flutter += c.flutter().size();
            sags += c.sags().size();
        }
        String all = counts.entrySet().stream()
                .map(e -> e.getValue() + " " + e.getKey())
                .collect(Collectors.joining(", "));
        return all + (flutter > 0 ? ", flutter " + flutter : "") + (sags > 0 ? ", sags " + sags : "");
    }

    private static void trace(Graphics2D g, double[] low, double[] high, Band band) {
        int lastX = -1;
        int last = 0;
        for (int x = 0; x < PLOT; x++) {
            if (low[x] > high[x]) {
                continue;
            }
            int bottom = band.y(low[x]);
            int top = band.y(high[x]);
            g.drawLine(LEFT + x, bottom, LEFT + x, top);
            if (lastX >= 0 && x - lastX < 30) {
                g.drawLine(LEFT + lastX, last, LEFT + x, Math.min(bottom, Math.max(top, last)));
            }
            lastX = x;
            last = (bottom + top) / 2;
        }
    }
}
