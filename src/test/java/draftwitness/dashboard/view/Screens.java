package draftwitness.dashboard.view;

import draftwitness.dashboard.FurnaceFeed;
import draftwitness.dashboard.GuidedFeed;
import draftwitness.dashboard.RecordControl;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.UnitChoice;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import javax.imageio.ImageIO;

/**
 * Makes the pictures of the window in {@code docs/screens}: every state, light and dark. Needs a display; run with
 * {@code -Dflatlaf.uiScale=2} and another name for the large ones.
 *
 * <pre>Screens FOLDER [SUFFIX [WIDTH HEIGHT [guided]]]</pre>
 */
final class Screens {
    private static final long SECOND = 1_000_000_000L;
    private static final House DEMO = House.of("demo-house", Duration.ofSeconds(800));
    private static final House NIGHT = House.of("night-one-lockout", Duration.ofHours(8));
    private final Path folder;
    private final String suffix;
    private final int width;
    private final int height;

    private Screens(Path folder, String suffix, int width, int height) {
        this.folder = folder;
        this.suffix = suffix;
        this.width = width;
        this.height = height;
    }

    public static void main(String[] args) throws IOException {
        Path folder = Files.createDirectories(Path.of(args[0]));
        String suffix = args.length > 1 ? args[1] : "";
        int width = args.length > 3 ? Integer.parseInt(args[2]) : 1366;
        int height = args.length > 3 ? Integer.parseInt(args[3]) : 768;
        Screens screens = new Screens(folder, suffix, width, height);
        for (Theme theme : Theme.values()) {
            if (args.length > 4) {
                screens.guided(theme);
            } else {
                screens.all(theme);
            }
        }
        System.exit(0); // the toolkit's threads would keep it alive
    }

    private void all(Theme theme) throws IOException {
        try (Bench bench = bench(theme, FurnaceFeed.usual())) {
            start(bench, theme);
            bench.feed.play(bench.session, 0, 800);
            bench.press("start.demo");
            save(bench, theme, "live");
            bench.press("record");
            bench.record.elapsedNanos = 751 * SECOND;
            bench.record.bytes = 1_234_567;
            save(bench, theme, "recording");
            loseSwitch(bench);
            save(bench, theme, "lost-sensor");
            bench.record.state = RecordControl.State.FAILED;
            bench.record.trouble =
                    "The disk is full. The recording is kept up to 22:11:30; free some space and press Record again.";
            save(bench, theme, "trouble");
        }
        replay(theme);
        many(theme);
        guided(theme);
        story(theme);
    }

    private void guided(Theme theme) throws IOException {
        FurnaceFeed feed = new FurnaceFeed(
                20, Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.GAS_INLET, Tap.GAS_MANIFOLD, Tap.CONTACT_SWITCH);
        try (Bench bench = bench(theme, feed)) {
            GuidedFeed guided = new GuidedFeed();
            guided.begin(feed.header());
            feed.play(bench.session, 0, 50);
            bench.press("start.demo");
            bench.act(() -> bench.model
                    .guided()
                    .live(guided, (result, told) -> told.accept("Kept with the recording, as a note.")));
            bench.press("guided.open");
            save(bench, theme, "guided-choose");
            bench.press("guided.choice.two-taps");
            bench.press("guided.go.button");
            for (int cell = 0; cell < 620; cell++) {
                guided.slice(feed.slice(cell));
            }
            save(bench, theme, "guided-two-taps");
            bench.press("guided.back");
            bench.press("guided.choice.gas");
            bench.press("guided.go.button");
            for (int cell = 620; cell < 680; cell++) {
                guided.slice(feed.slice(cell));
            }
            save(bench, theme, "guided-gas");
        }
    }

    /** What the furnace does, in the model house. */
    private void story(Theme theme) throws IOException {
        try (Bench bench = bench(theme, FurnaceFeed.usual())) {
            House.Shown shown = DEMO.begin();
            DEMO.play(shown, 0, 60);
            bench.showLive(shown);
            save(bench, theme, "watch-first-cycle");
            DEMO.play(shown, 60, 420);
            bench.settle();
            DEMO.play(shown, 420, 520);
            bench.act(() -> bench.model.choose(SpanChoice.MINUTES_5));
            save(bench, theme, "watch");
            DEMO.play(shown, 520, 800);
            save(bench, theme, "watch-later");
            bench.showRecording(DEMO, DEMO.told());
            bench.press("findings");
            save(bench, theme, "findings");
            bench.press("cause.condensate-in-vent.why");
            save(bench, theme, "findings-why");
            bench.press("findings.back");
            save(bench, theme, "worst-moment");
            bench.press("cycle.before");
            save(bench, theme, "cycle");
            bench.showRecording(NIGHT, NIGHT.told());
            save(bench, theme, "night");
        }
    }

    private void start(Bench bench, Theme theme) throws IOException {
        save(bench, theme, "start-empty");
        bench.sources.addAll(Sensors.three());
        bench.recent = Sensors.recent();
        bench.act(() -> {});
        bench.press("source.ascii-line@serial:/dev/ttyUSB0?baud=9600.pressure");
        save(bench, theme, "start-choosing");
        bench.press("tap.draft.switch");
        bench.press("source.ascii-line@serial:/dev/ttyUSB1?baud=9600.pressure");
        bench.press("tap.draft.inducer");
        bench.type("setup.title", "Back hall furnace");
        bench.type("setup.set-point", "0.60 inH2O");
        save(bench, theme, "start-ready");
        bench.press("start.more");
        save(bench, theme, "setup");
        bench.press("editor.back");
    }

    private void replay(Theme theme) throws IOException {
        try (Bench bench = bench(theme, FurnaceFeed.usual())) {
            bench.press("open");
            bench.act(() -> bench.model.goTo(76 * SECOND));
            save(bench, theme, "replay");
            bench.act(() -> {
                bench.model.measure(68 * SECOND, 84 * SECOND);
                bench.model.point(84 * SECOND);
            });
            save(bench, theme, "measure");
            bench.act(bench.model::clearMeasure);
            bench.act(() -> bench.model.point(70 * SECOND));
            save(bench, theme, "cursor");
            bench.act(() -> bench.model.point(null));
            bench.act(() -> {
                bench.model.choose(SpanChoice.ALL);
                bench.model.choose(UnitChoice.INCH_OF_WATER);
            });
            save(bench, theme, "replay-all");
        }
    }

    private void many(Theme theme) throws IOException {
        FurnaceFeed feed = new FurnaceFeed(
                20,
                Tap.DRAFT_SWITCH,
                Tap.DRAFT_INDUCER,
                Tap.DRAFT_COLLECTOR,
                Tap.GAS_INLET,
                Tap.GAS_MANIFOLD,
                Tap.FLAME_CURRENT,
                Tap.CONTACT_SWITCH,
                Tap.CONTACT_GAS_VALVE);
        try (Bench bench = bench(theme, feed)) {
            feed.play(bench.session, 0, 1500);
            bench.press("start.demo");
            save(bench, theme, "eight");
        }
    }

    private static void loseSwitch(Bench bench) {
        SourceEvent gone = new SourceEvent("draft.switch", 80 * SECOND, SourceState.RETRYING, "unplugged");
        bench.session.slice(new Slice(800, List.of(), List.of(gone)));
        for (int cell = 801; cell < 900; cell++) {
            Slice whole = bench.feed.slice(cell);
            bench.session.slice(new Slice(
                    cell,
                    whole.blocks().stream()
                            .filter(b -> b.channel().tap() != Tap.DRAFT_SWITCH)
                            .toList(),
                    List.of()));
        }
    }

    private Bench bench(Theme theme, FurnaceFeed feed) {
        Bench bench = new Bench(Settings.defaults().with(theme), feed);
        bench.size(width, height);
        return bench;
    }

    private void save(Bench bench, Theme theme, String state) throws IOException {
        String name = state + "-" + theme.name().toLowerCase(Locale.ROOT) + suffix + ".png";
        ImageIO.write(bench.picture(), "png", folder.resolve(name).toFile());
    }
}
