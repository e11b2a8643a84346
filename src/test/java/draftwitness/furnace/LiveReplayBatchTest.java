package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.LiveReport;
import draftwitness.cycle.SessionSummarizer;
import draftwitness.diagnosis.Diagnosis;
import draftwitness.reading.Block;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.RecordingWriter;
import draftwitness.replay.Replayer;
import draftwitness.report.AnalysisJson;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** The same session gives the same JSON to the last letter: as it came, from its recording, replayed, however cut. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class LiveReplayBatchTest {
    private static final double SECONDS = 420;

    @TempDir
    static Path folder;

    private SessionHeader header;
    private Setup setup;
    private final List<Slice> slices = new ArrayList<>();
    private String live;

    /** A house with flutter, sags and a second cycle, all its instruments. */
    @BeforeAll
    void simulate() throws Exception {
        Scenario scenario = Scenarios.list().stream()
                .filter(s -> s.name().equals("demo-house"))
                .findFirst()
                .orElseThrow();
        Simulation simulation = Simulation.start(scenario, 1);
        header = AnalysisFeed.header(simulation);
        setup = Setup.parse("setup", scenario.setupText());
        AnalysisFeed.run(
                simulation,
                SECONDS,
                new SessionListener() {
                    @Override
                    public void begin(SessionHeader begun) {}

                    @Override
                    public void slice(Slice slice) {
                        slices.add(slice);
                    }

                    @Override
                    public void end() {}
                },
                t -> {});
        live = json(slices);
        assertThat(live).contains("\"flutter\"").contains("\"sag\"").contains("\"index\":2");
    }

    private String json(List<Slice> given) {
        Reading reading = new Reading();
        reading.begin(header);
        given.forEach(reading::slice);
        reading.end();
        return reading.json();
    }

    /** Both listeners that the JSON is made of. */
    private final class Reading implements SessionListener {
        private final SessionSummarizer summarizer = new SessionSummarizer();
        private final CycleAnalyzer analyzer = new CycleAnalyzer(setup);

        @Override
        public void begin(SessionHeader begun) {
            summarizer.begin(begun);
            analyzer.begin(begun);
        }

        @Override
        public void slice(Slice slice) {
            summarizer.slice(slice);
            analyzer.slice(slice);
        }

        @Override
        public void end() {
            summarizer.end();
            analyzer.end();
        }

        String json() {
            CycleReport report = analyzer.report();
            return AnalysisJson.of(
                    "a.dwrec", summarizer.summary(), report, Diagnosis.of(header.channels(), setup, report, List.of()));
        }
    }

    @Test
    void givenRecording_whenReadAtOnceOrReplayed_thenTheJsonOfTheLiveSession() throws Exception {
        Path path = folder.resolve("a.dwrec");
        try (RecordingWriter writer = RecordingWriter.create(path, header)) {
            for (Slice slice : slices) {
                writer.append(slice);
            }
        }
        try (RecordingFile file = RecordingFile.open(path)) {
            Reading batch = new Reading();
            batch.begin(file.header());
            file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, batch::slice);
            batch.end();
            assertThat(batch.json()).isEqualTo(live);

            Reading replayed = new Reading();
            LiveReport report = new LiveReport(setup);
            Ticker fast = Ticker.system().scaled(100_000);
            try (Replayer replayer = new Replayer(file, fast, List.of(replayed, report))) {
                replayer.start();
                replayer.play();
                assertThat(replayer.awaitEnd(60, TimeUnit.SECONDS)).isTrue();
            }
            assertThat(replayed.json()).isEqualTo(live);
            assertThat(report.snapshot().ended()).isTrue();
            assertThat(report.snapshot().report()).isEqualTo(replayed.analyzer.report());
        }
    }

    @Test
    void givenBlocksCutAtAnyPlaceAndHandedOverLate_whenRead_thenTheSameJson() {
        for (int seed = 1; seed <= 4; seed++) {
            assertThat(json(cutAnew(new Random(seed))))
                    .as("cuts of seed %d", seed)
                    .isEqualTo(live);
        }
    }

    /** The same readings in the same order for each channel, in other blocks, some of them up to 0.8 s late. */
    private List<Slice> cutAnew(Random random) {
        int channels = header.channels().size();
        List<List<Block>> waiting = new ArrayList<>();
        for (int c = 0; c < channels; c++) {
            waiting.add(new ArrayList<>());
        }
        List<Slice> out = new ArrayList<>();
        for (Slice slice : slices) {
            slice.blocks()
                    .forEach(b ->
                            waiting.get(header.channels().indexOf(b.channel())).addAll(parts(b, random)));
            List<Block> now = new ArrayList<>();
            for (List<Block> queue : waiting) {
                boolean holds = random.nextInt(3) > 0 && slice.index() < slices.size() - 1;
                while (!queue.isEmpty()
                        && (!holds || slice.endNanos() - queue.get(0).firstNanos() > 800_000_000)) {
                    now.add(queue.remove(0));
                }
            }
            out.add(new Slice(slice.index(), now, slice.events()));
        }
        return out;
    }

    private static List<Block> parts(Block b, Random random) {
        List<Block> out = new ArrayList<>();
        int at = 0;
        while (at < b.size()) {
            int to = Math.min(b.size(), at + 1 + random.nextInt(5));
            long[] times = new long[b.size()];
            long[] counts = new long[b.size()];
            for (int i = 0; i < b.size(); i++) {
                times[i] = b.timeNanos(i);
                counts[i] = b.count(i);
            }
            out.add(new Block(
                    b.channel(), b.step(), Arrays.copyOfRange(times, at, to), Arrays.copyOfRange(counts, at, to)));
            at = to;
        }
        return out;
    }
}
