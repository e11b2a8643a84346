package draftwitness.recording;

import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import java.util.ArrayList;
import java.util.List;

/**
 * Turns buckets into the payload of an overview row and back. One owner thread.
 *
 * <p>Layout (numbers as in {@link StretchCodec}); a group is successive entries of one channel and step:
 *
 * <pre>
 * v number of groups, then each:
 *   v channel position   v unit number   v decimals   v entries n (at least 1)
 *   s first bucket minus that of the row's first cell
 *   s time of the first reading minus the bucket's begin, in time steps   v time from there to the last reading
 *   v bytes of the body
 *   body, streams of {@link RiceCoder}: n - 1 bucket steps less 1; n readings, zigzag of the change from the entry
 *         before; n first counts, zigzag of the change from the last count before; n last counts, zigzag of the change
 *         from the first; n depths of the minimum below both; n heights of the maximum above both
 * </pre>
 */
final class OverviewCodec {
    private static final int MAX_ENTRIES = 1 << 20;
    private static final RiceCoder CODER = RiceCoder.INSTANCE;

    private final long timeStepNanos;
    private final int channels;
    private final BitWriter out = new BitWriter();
    private final BitWriter body = new BitWriter();

    OverviewCodec(long timeStepNanos, int channels) {
        this.timeStepNanos = timeStepNanos;
        this.channels = channels;
    }

    byte[] encode(int level, long firstCell, List<Buckets> all) {
        out.clear();
        int groups = 0;
        for (Buckets buckets : all) {
            groups += groups(buckets.entries).size();
        }
        out.varint(groups);
        for (int channel = 0; channel < all.size(); channel++) {
            for (List<Buckets.Entry> group : groups(all.get(channel).entries)) {
                encode(channel, group, origin(level, firstCell), Pyramid.widthNanos(level));
            }
        }
        return out.toArray();
    }

    private static long origin(int level, long firstCell) {
        return Math.floorDiv(firstCell * Slice.CELL_NANOS, Pyramid.widthNanos(level));
    }

    private static List<List<Buckets.Entry>> groups(List<Buckets.Entry> entries) {
        List<List<Buckets.Entry>> groups = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= entries.size(); i++) {
            if (i == entries.size() || !entries.get(i).step.equals(entries.get(from).step)) {
                groups.add(entries.subList(from, i));
                from = i;
            }
        }
        return groups;
    }

    private long begin(long bucket, long widthNanos) {
        return Math.floorDiv(bucket * widthNanos, timeStepNanos);
    }

    private void encode(int channel, List<Buckets.Entry> group, long origin, long widthNanos) {
        Buckets.Entry first = group.get(0);
        Buckets.Entry last = group.get(group.size() - 1);
        out.varint(channel);
        out.varint(UnitCodes.codeOf(first.step.unit()));
        out.varint(first.step.decimals());
        out.varint(group.size());
        out.signed(first.bucket - origin);
        out.signed(first.firstTime - begin(first.bucket, widthNanos));
        out.varint(last.lastTime - first.firstTime);
        body.clear();
        encodeStreams(group);
        body.align();
        out.varint(body.size());
        out.bytes(body.buffer(), body.size());
    }

    private void encodeStreams(List<Buckets.Entry> group) {
        int n = group.size();
        long[][] streams = new long[6][n];
        Buckets.Entry before = null;
        for (int i = 0; i < n; i++) {
            Buckets.Entry e = group.get(i);
            if (before != null) {
                streams[0][i - 1] = e.bucket - before.bucket - 1;
            }
            streams[1][i] = BitWriter.zigzag(e.readings - (before == null ? 0 : before.readings));
            streams[2][i] = BitWriter.zigzag(e.first - (before == null ? 0 : before.last));
            streams[3][i] = BitWriter.zigzag(e.last - e.first);
            streams[4][i] = Math.min(e.first, e.last) - e.min;
            streams[5][i] = e.max - Math.max(e.first, e.last);
            before = e;
        }
        for (int s = 0; s < streams.length; s++) {
            CODER.encode(body, streams[s], s == 0 ? n - 1 : n);
        }
    }

    /**
     * Decodes a payload whose checksum was right. The times of inner readings are not kept: an entry's own times are
     * those of its group's first and last reading, or of its bucket's begin.
     *
     * @param onlyChannel position of the one channel to decode, or -1 for all
     * @return buckets for each channel of the session
     * @throws IndexOutOfBoundsException if the payload cannot have come from {@link #encode}
     */
    List<Buckets> decode(OverviewRow row, int onlyChannel) {
        List<Buckets> all = Pyramid.empty(channels);
        BitReader in = new BitReader(row.payload());
        int groups = in.varint(0, MAX_ENTRIES);
        for (int g = 0; g < groups; g++) {
            int channel = in.varint(0, channels - 1);
            Step step = new Step(UnitCodes.of(in.varint()), in.varint(0, Step.MAX_DECIMALS));
            int n = in.varint(1, MAX_ENTRIES);
            long bucket = origin(row.level(), row.firstCell()) + in.signed();
            long firstTime = in.signed() + begin(bucket, Pyramid.widthNanos(row.level()));
            long lastTime = in.varint() + firstTime;
            int end = in.varint(0, Integer.MAX_VALUE) + in.bytePosition();
            if (onlyChannel < 0 || onlyChannel == channel) {
                List<Buckets.Entry> group = decodeStreams(in, n, bucket, step, row.level());
                group.get(0).firstTime = firstTime;
                group.get(n - 1).lastTime = lastTime;
                all.get(channel).entries.addAll(group);
            }
            in.seekByte(end);
        }
        return all;
    }

    private List<Buckets.Entry> decodeStreams(BitReader in, int n, long firstBucket, Step step, int level) {
        long[][] streams = new long[6][n];
        for (int s = 0; s < streams.length; s++) {
            CODER.decode(in, streams[s], s == 0 ? n - 1 : n);
        }
        List<Buckets.Entry> group = new ArrayList<>(n);
        long bucket = firstBucket;
        long readings = 0;
        long last = 0;
        for (int i = 0; i < n; i++) {
            Buckets.Entry e = new Buckets.Entry(bucket, step);
            e.readings = readings + BitWriter.unzigzag(streams[1][i]);
            e.first = last + BitWriter.unzigzag(streams[2][i]);
            e.last = e.first + BitWriter.unzigzag(streams[3][i]);
            e.min = Math.min(e.first, e.last) - streams[4][i];
            e.max = Math.max(e.first, e.last) + streams[5][i];
            e.firstTime = begin(bucket, Pyramid.widthNanos(level));
            e.lastTime = e.firstTime;
            group.add(e);
            readings = e.readings;
            last = e.last;
            bucket += streams[0][i] + 1;
        }
        return group;
    }
}
