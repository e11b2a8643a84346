package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Arrivals and the instrument's counters are kept beside computed times, bit for bit, and cost little. */
class BesideTest {
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final long STEP = HEADER.timeStepNanos();
    private static final int CELLS = 6400;

    @TempDir
    Path folder;

    /** Two channels out of the same messages at 50 Hz over an adapter that hands bytes on every 16 ms. */
    private static List<Slice> slices(boolean arrivals, boolean counters) {
        Slicer slicer = new Slicer(HEADER.channels(), 0);
        Random random = new Random(5);
        List<Slice> slices = new ArrayList<>();
        int counter = 65_000; // wraps around at 16 bits
        for (int cell = 0; cell < CELLS; cell++) {
            for (int k = 0; k < 5; k++) {
                long time = cell * Slice.CELL_NANOS + k * 20_000_000L;
                long arrival = (time / 16_000_000 + 1) * 16_000_000 + random.nextInt(3) * STEP;
                counter = (counter + (random.nextInt(1000) == 0 ? 2 : 1)) & 0xFFFF;
                for (int channel = 0; channel < 2; channel++) {
                    Channel c = HEADER.channels().get(channel);
                    slicer.add(
                            channel,
                            new Step(c.unit(), 1),
                            time,
                            Math.round(random.nextGaussian() * 4),
                            arrivals ? arrival : Slicer.NO_ARRIVAL,
                            counters ? counter : Block.NO_COUNTER);
                }
            }
            slices.add(slicer.next());
        }
        return slices;
    }

    @Test
    void givenArrivalsAndCounters_whenRecorded_thenTheyComeBackAndCostLittle() throws Exception {
        Path plain = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, slices(false, false));
        List<Slice> slices = slices(true, true);
        Path full = RoundTripTest.record(folder.resolve("b.dwrec"), HEADER, slices);
        try (RecordingFile file = RecordingFile.open(full)) {
            List<Slice> got = RoundTripTest.replay(file);
            assertThat(got.equals(slices)).isTrue();
            assertThat(got.get(77).blocks()).allMatch(b -> b.hasArrivals() && b.hasCounters());
        }
        assertThat(Verifier.verify(full).damages()).isEmpty();
        double messages = CELLS * 5.0;
        // Uniform delays of 16 ms at 0.1 ms take 7.3 bits; they are kept once for both channels, lost messages
        // included.
        assertThat((Files.size(full) - Files.size(plain)) / messages).isLessThan(1.1);
        Path counted = RoundTripTest.record(folder.resolve("c.dwrec"), HEADER, slices(false, true));
        assertThat((Files.size(counted) - Files.size(plain)) / messages).isLessThan(0.05);
    }

    @Test
    void givenABeginningAndAnEndOfComputedTimes_whenRecorded_thenEachBlockKeepsItsOwnKind() throws Exception {
        List<Slice> plain = slices(false, false);
        List<Slice> full = slices(true, true);
        List<Slice> mixed = new ArrayList<>();
        for (int i = 0; i < 900; i++) {
            mixed.add((i / 130 % 2 == 0 ? plain : full).get(i));
        }
        Path path = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, mixed);
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(RoundTripTest.replay(file).equals(mixed)).isTrue();
        }
        Repair.run(path, folder.resolve("b.dwrec"));
        try (RecordingFile file = RecordingFile.open(folder.resolve("b.dwrec"))) {
            assertThat(RoundTripTest.replay(file).equals(mixed)).isTrue();
        }
    }

    @Test
    void givenAnArrivalBetweenTimeSteps_whenRecorded_thenItIsRefused() throws Exception {
        Channel channel = HEADER.channels().get(0);
        Block block = new Block(
                channel, new Step(channel.unit(), 1), new long[] {STEP}, new long[] {1}, new long[] {STEP + 1}, null);
        try (RecordingWriter writer = RecordingWriter.create(folder.resolve("a.dwrec"), HEADER)) {
            assertThatThrownBy(() -> writer.append(new Slice(0, List.of(block), List.of())))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("not a multiple");
        }
    }
}
