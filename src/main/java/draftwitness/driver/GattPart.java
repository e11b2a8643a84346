package draftwitness.driver;

import draftwitness.reading.Chunk;
import draftwitness.reading.Unit;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Decodes the values of one characteristic. One owner thread. */
interface GattPart {

    /** One value as it came. */
    void value(Chunk chunk, DecodeSink sink);

    /** The Presentation Format descriptor. */
    default void descriptor(Chunk chunk, DecodeSink sink) {
        sink.filler(chunk.size());
    }

    void restart();

    /** After {@link #restart}: the next value begins a message. */
    default void startClean() {}

    default int held() {
        return 0;
    }

    /** Each value is one binary message. */
    final class Binary implements GattPart {
        private final FrameLayout layout;
        private final Staged staged = new Staged();

        Binary(FrameLayout layout) {
            this.layout = layout;
        }

        @Override
        public void value(Chunk chunk, DecodeSink sink) {
            byte[] bytes = chunk.toArray();
            staged.clear();
            Fault fault = judge(bytes);
            if (fault == null) {
                if (sink.wantsParts()) {
                    layout.tellParts(bytes, bytes.length, sink);
                }
                staged.release(bytes.length, chunk.arrivalNanos(), sink);
            } else {
                sink.fault(fault, bytes.length);
            }
        }

        private @Nullable Fault judge(byte[] bytes) {
            if (layout.length.fixed() > 0 && layout.length.fixed() != bytes.length) {
                return Fault.PARTIAL;
            }
            if (bytes.length < layout.sync.length || !layout.mayBegin(bytes, 0, bytes.length)) {
                return Fault.NOT_A_READING;
            }
            Fault fault = layout.check(bytes, bytes.length);
            return fault == null ? layout.stage(bytes, bytes.length, staged) : fault;
        }

        @Override
        public void restart() {
            staged.clear();
        }
    }

    /** Lines of text, cut into values anyhow. */
    final class Text implements GattPart {
        private final Decoder lines;

        Text(Decoder lines) {
            this.lines = lines;
        }

        @Override
        public void value(Chunk chunk, DecodeSink sink) {
            lines.decode(chunk, sink);
        }

        @Override
        public void restart() {
            lines.restart(0);
        }

        @Override
        public void startClean() {
            lines.restartInStep(0);
        }

        @Override
        public int held() {
            return lines.held();
        }
    }

    /** Each value is one number as its descriptor says; before the descriptor is known nothing is read. */
    final class SelfDescribed implements GattPart {
        private final int index;
        private final TextReading text;
        private final boolean signed;
        private final Staged staged = new Staged();
        private @Nullable PresentationFormat format;

        /** @param signed read unsigned formats with a sign */
        SelfDescribed(int index, TextReading text, boolean signed) {
            this.index = index;
            this.text = text;
            this.signed = signed;
        }

        @Override
        public void descriptor(Chunk chunk, DecodeSink sink) {
            Optional<PresentationFormat> read = PresentationFormat.read(chunk.toArray())
                    .filter(f -> f.suits(text.spec().unit().quantity()));
            format = read.orElse(null);
            if (read.isPresent()) {
                sink.message(chunk.size());
            } else {
                sink.fault(Fault.UNKNOWN_UNIT, chunk.size());
            }
        }

        /** Whether its descriptor is known and suits. */
        boolean isReady() {
            return format != null;
        }

        @Override
        public void value(Chunk chunk, DecodeSink sink) {
            staged.clear();
            Fault fault = format == null ? Fault.UNKNOWN_UNIT : judge(format, chunk.toArray());
            if (fault == null) {
                staged.release(chunk.size(), chunk.arrivalNanos(), sink);
            } else {
                sink.fault(fault, chunk.size());
            }
        }

        private @Nullable Fault judge(PresentationFormat known, byte[] bytes) {
            Unit declared = text.spec().unit();
            Unit unit = known.unit() == null ? declared : known.unit();
            if (known.text()) {
                String cell = LineDecoder.text(bytes, bytes.length);
                return text.stage(index, cell, known.unit() == null ? null : unit.symbol(), staged);
            }
            NumberField field = known.field(declared, signed);
            if (bytes.length != field.type().bytes()) {
                return Fault.NOT_A_READING;
            }
            return field.stage(index, text.spec(), unit, bytes, 0, staged);
        }

        @Override
        public void restart() {
            format = null;
        }
    }
}
