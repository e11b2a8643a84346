package draftwitness.furnace;

import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;

/**
 * Draws scenarios as a sheet of small charts, from what the simulated instruments read; for people to judge whether the
 * model behaves as furnaces do.
 *
 * <p>Run with {@code mvn -q test-compile exec:java} or from an editor: arguments are the file to write, the columns,
 * and the scenarios (all if none). Suction is drawn downwards, as it is signed.
 */
final class PlotSheet {
    private static final int WIDTH = 620;
    private static final int HEIGHT = 230;
    private static final Color[] COLOURS = {
        new Color(0x0072B2), new Color(0xD55E00), new Color(0x009E73), new Color(0xCC79A7), new Color(0x7F6A00)
    };

    private static double from;
    private static double to = -1;

    private PlotSheet() {}

    /** Writes the sheet. */
    public static void main(String[] args) throws Exception {
        System.setProperty("java.awt.headless", "true");
        int columns = Integer.parseInt(args[1]);
        List<Scenario> scenarios = new ArrayList<>();
        if (args.length == 2) {
            scenarios.addAll(Scenarios.list());
        }
        for (int i = 2; i < args.length; i++) {
            String[] parts = args[i].split("@|\\.\\.", -1);
            scenarios.add(Scenarios.find(parts[0]));
            if (parts.length == 3) {
                from = Double.parseDouble(parts[1]);
                to = Double.parseDouble(parts[2]);
            }
        }
        write(Path.of(args[0]), columns, scenarios, 1);
    }

    static void write(Path file, int columns, List<Scenario> scenarios, long seed) throws IOException {
        int rows = (scenarios.size() + columns - 1) / columns;
        BufferedImage image = new BufferedImage(columns * WIDTH, rows * HEIGHT, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setColor(Color.WHITE);
        g.fillRect(0, 0, image.getWidth(), image.getHeight());
        for (int i = 0; i < scenarios.size(); i++) {
            Graphics2D panel = (Graphics2D) g.create(i % columns * WIDTH, i / columns * HEIGHT, WIDTH, HEIGHT);
            draw(panel, scenarios.get(i), seed);
            panel.dispose();
        }
        g.dispose();
        ImageIO.write(image, "png", file.toFile());
    }

    private static void draw(Graphics2D g, Scenario scenario, long seed) {
        Simulation run = Simulation.start(scenario, seed);
        int n = run.sensors().size();
        int plot = WIDTH - 60;
        double[][] low = new double[n][plot];
        double[][] high = new double[n][plot];
        for (int i = 0; i < n; i++) {
            java.util.Arrays.fill(low[i], Double.POSITIVE_INFINITY);
            java.util.Arrays.fill(high[i], Double.NEGATIVE_INFINITY);
        }
        double begin = from;
        double end = to < 0 ? scenario.durationSeconds() : to;
        run.advanceTo(Math.round(end * 1e9), (sensor, nanos, count) -> {
            SimulatedSensor s = run.sensors().get(sensor);
            double value = new Step(s.unit(), s.decimals()).inBase(count);
            int x = (int) Math.min(plot - 1, (nanos / 1e9 - begin) / (end - begin) * plot);
            if (nanos / 1e9 < begin) {
                return;
            }
            low[sensor][x] = Math.min(low[sensor][x], value);
            high[sensor][x] = Math.max(high[sensor][x], value);
        });
        labels(g, scenario, run, end);
        int contacts = 0;
        int colour = 0;
        for (int i = 0; i < n; i++) {
            Tap tap = run.sensors().get(i).tap();
            Color c = COLOURS[colour++ % COLOURS.length];
            g.setColor(c);
            g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 10));
            g.drawString(tap.role(), 50 + i * 95, HEIGHT - 6);
            switch (tap.quantity()) {
                case CONTACT -> trace(g, low[i], high[i], 190 + 9 * contacts++, 9.0, 0, 1);
                case CURRENT -> trace(g, low[i], high[i], 184, 40, 0, 4);
                default -> {
                    boolean gas = tap.role().startsWith("gas");
                    trace(g, low[i], high[i], gas ? 184 : 160, gas ? 40 : 130, gas ? 0 : -600, gas ? 2000 : 50);
                }
            }
        }
    }

    private static void labels(Graphics2D g, Scenario scenario, Simulation run, double seconds) {
        g.setColor(new Color(0xDDDDDD));
        g.drawRect(0, 0, WIDTH - 1, HEIGHT - 1);
        for (int p = -600; p <= 0; p += 100) {
            int y = y(p, 160, 130, -600, 50);
            g.drawLine(50, y, WIDTH - 10, y);
        }
        g.setColor(Color.DARK_GRAY);
        g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 10));
        for (int p = -600; p <= 0; p += 200) {
            g.drawString(p + " Pa", 6, y(p, 160, 130, -600, 50) + 4);
        }
        StringBuilder outcomes = new StringBuilder();
        for (Cycle c : run.truthCycles()) {
            outcomes.append(' ').append(c.outcome()).append('/').append(c.attempts());
            outcomes.append(c.flutter().isEmpty() ? "" : " F" + c.flutter().size());
            outcomes.append(c.sags().isEmpty() ? "" : " S" + c.sags().size());
        }
        g.drawString("0 ... " + Math.round(seconds) + " s:" + outcomes, 50, 26);
        g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, 12));
        g.drawString(scenario.name(), 50, 14);
        g.setColor(Color.RED);
        g.setStroke(new BasicStroke(1, BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL, 0, new float[] {4, 4}, 0));
        int y = y(-scenario.house().rating().makePascals(), 160, 130, -600, 50);
        g.drawLine(50, y, WIDTH - 10, y);
        g.setStroke(new BasicStroke(1));
    }

    private static int y(double value, double bottom, double height, double from, double to) {
        return (int) Math.round(bottom - height * (value - from) / (to - from));
    }

    private static void trace(
            Graphics2D g, double[] low, double[] high, double bottom, double height, double from, double to) {
        int last = -1;
        for (int x = 0; x < low.length; x++) {
            if (low[x] > high[x]) {
                continue;
            }
            int a = y(low[x], bottom, height - 2, from, to);
            int b = y(high[x], bottom, height - 2, from, to);
            g.drawLine(50 + x, a, 50 + x, b);
            if (last >= 0) {
                g.drawLine(50 + x - 1, last, 50 + x, Math.max(b, Math.min(a, last)));
            }
            last = (a + b) / 2;
        }
    }
}
