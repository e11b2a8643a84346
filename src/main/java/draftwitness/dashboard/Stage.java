package draftwitness.dashboard;

import org.jspecify.annotations.Nullable;

/** What is being looked at: a live session or a recording. User-interface thread. */
interface Stage {
    String name();

    /** The session as it is now, or null before it began. */
    @Nullable
    ShownSession session();

    /** Readings for the overview of the whole session. */
    SeriesWindows overview(ShownSession session);

    /** Readings for cursor and measure. */
    SeriesWindows probe(ShownSession session);

    /** The newest moment of a live session, or the playhead. */
    long headNanos(ShownSession session);

    @Nullable
    RecordControl record();

    @Nullable
    ReplayControl replay();

    /** A live session. */
    record Live(String name, SessionModel model, RecordControl control) implements Stage {
        @Override
        public @Nullable ShownSession session() {
            return model.shown();
        }

        @Override
        public SeriesWindows overview(ShownSession session) {
            return session.windows();
        }

        @Override
        public SeriesWindows probe(ShownSession session) {
            return session.windows();
        }

        @Override
        public long headNanos(ShownSession session) {
            return session.nowNanos();
        }

        @Override
        public RecordControl record() {
            return control;
        }

        @Override
        public @Nullable ReplayControl replay() {
            return null;
        }
    }

    /** A recording; its windows answer at once and fetch in the background. */
    record Replay(Recording recording, BackgroundWindows strips, BackgroundWindows whole, BackgroundWindows probes)
            implements Stage {
        @Override
        public String name() {
            return recording.name();
        }

        @Override
        public ShownSession session() {
            return new ShownSession(
                    recording.header(),
                    strips,
                    recording.sources(),
                    strips.extent().toNanos(),
                    true);
        }

        @Override
        public SeriesWindows overview(ShownSession session) {
            return whole;
        }

        @Override
        public SeriesWindows probe(ShownSession session) {
            return probes;
        }

        @Override
        public long headNanos(ShownSession session) {
            return recording.replay().status().positionNanos();
        }

        @Override
        public @Nullable RecordControl record() {
            return null;
        }

        @Override
        public ReplayControl replay() {
            return recording.replay();
        }
    }
}
