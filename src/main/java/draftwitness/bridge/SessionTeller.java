package draftwitness.bridge;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.Episode;
import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.cycle.Now;
import draftwitness.cycle.Phase;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.report.AnalysisJson;
import draftwitness.setup.Setup;
import java.util.HashSet;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Makes a session into messages: what it is made of, each cell of readings, each change of phase, each cycle that is
 * over, and each episode, once as soon as it is seen and once more when its cycle is over and nothing can change it.
 * One owner thread, the session's.
 */
final class SessionTeller implements SessionListener {
    private final LiveReport analysis;
    private final String software;
    private final Consumer<Message> out;
    private final Set<String> told = new HashSet<>();
    private String session = "";
    private long seen;
    private int cyclesTold;
    private @Nullable Phase phase;
    private long phaseSince;

    /**
     * A teller of one session.
     *
     * @param setup what is known of the appliance
     * @param software name and version of the program
     */
    SessionTeller(Setup setup, String software, Consumer<Message> out) {
        this.analysis = new LiveReport(setup);
        this.software = software;
        this.out = out;
    }

    /** Names the session anew each time one begins, so that nobody takes one's cells for another's. */
    String session() {
        return session;
    }

    @Override
    public void begin(SessionHeader header) {
        session = (header.start() == null ? "" : header.start() + " ")
                + UUID.randomUUID().toString().substring(0, 8);
        told.clear();
        cyclesTold = 0;
        seen = 0;
        phase = null;
        analysis.begin(header);
        out.accept(BridgeJson.session(session, header, software));
    }

    @Override
    public void slice(Slice slice) {
        out.accept(BridgeJson.readings(session, slice));
        analysis.slice(slice);
        tell(analysis.snapshot());
    }

    @Override
    public void end() {
        analysis.end();
        tell(analysis.snapshot());
    }

    private void tell(LiveSnapshot snapshot) {
        if (snapshot.number() == seen) {
            return;
        }
        seen = snapshot.number();
        tellPhase(snapshot.now());
        for (Cycle cycle : snapshot.report().cycles()) {
            if (cycle.index() <= cyclesTold) {
                continue;
            }
            for (Episode episode : cycle.episodes()) {
                tellEpisode(cycle, episode);
            }
            if (cycle.complete()) {
                cyclesTold = cycle.index();
                out.accept(BridgeJson.message(Message.Kind.CYCLE, session, json -> {
                    json.writeFieldName("cycle");
                    json.writeRawValue(AnalysisJson.cycle(cycle));
                }));
            }
        }
    }

    private void tellPhase(Now now) {
        if (Objects.equals(now.phase(), phase) && now.sinceNanos() == phaseSince) {
            return;
        }
        phase = now.phase();
        phaseSince = now.sinceNanos();
        if (now.phase() == null) {
            return;
        }
        String word = now.phase().id();
        out.accept(BridgeJson.message(Message.Kind.PHASE, session, json -> {
            json.writeStringField("phase", word);
            json.writeFieldName("since_s");
            json.writeNumber(BridgeJson.decimal(now.sinceNanos(), 9));
            json.writeNumberField("cycle", now.cycle());
            json.writeNumberField("attempt", now.attempt());
            Now.Next next = now.next();
            if (next != null) {
                json.writeStringField("next", next.phase().id());
                if (next.expectedNanos() != null) {
                    json.writeFieldName("expected_s");
                    json.writeNumber(BridgeJson.decimal(next.expectedNanos(), 9));
                }
            }
        }));
    }

    /** A provisional episode is told once for each place where one begins, to the second. */
    private void tellEpisode(Cycle cycle, Episode episode) {
        String place = cycle.index() + " " + episode.kind() + " " + episode.startNanos() / 1_000_000_000;
        if (!cycle.complete() && !told.add(place)) {
            return;
        }
        out.accept(BridgeJson.message(Message.Kind.EPISODE, session, json -> {
            json.writeNumberField("cycle", cycle.index());
            json.writeBooleanField("final", cycle.complete());
            json.writeFieldName("episode");
            json.writeRawValue(AnalysisJson.episode(episode));
        }));
        if (cycle.complete()) {
            told.remove(place);
        }
    }
}
