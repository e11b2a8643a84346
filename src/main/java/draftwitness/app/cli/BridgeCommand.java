package draftwitness.app.cli;

import draftwitness.app.BridgeReporter;
import draftwitness.app.FollowLinks;
import draftwitness.app.HealthReporter;
import draftwitness.app.KeptSetup;
import draftwitness.app.LiveRun;
import draftwitness.app.RecordSwitch;
import draftwitness.app.Sessions;
import draftwitness.app.StopSignal;
import draftwitness.bridge.Bridge;
import draftwitness.bridge.BridgeException;
import draftwitness.bridge.Broker;
import draftwitness.bridge.Site;
import draftwitness.capture.CaptureSession;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.reading.SessionListener;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.replay.Replayer;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code bridge}: hands live readings, phases, episodes and cycles on to other programs. */
@Command(
        name = "bridge",
        mixinStandardHelpOptions = true,
        description = {
            "Hands readings, phases, episodes and cycles on to other programs as they come: to an MQTT 5 broker,",
            "as lines of JSON on standard output, or to whoever connects to a TCP port. From sources, or from a recording."
        })
final class BridgeCommand implements Callable<Integer> {
    private static final long LOOK_MILLIS = 50;

    private final Console console;

    @Parameters(arity = "0..1", paramLabel = "FILE", description = "A recording (.dwrec) to play instead of sources.")
    private @Nullable Path file;

    @Mixin
    private SourceOptions sources = new SourceOptions();

    @Option(
            names = "--mqtt",
            paramLabel = "URL",
            description = "Broker: mqtt://HOST[:PORT], or mqtts:// for an encrypted connection.")
    private @Nullable String url;

    @Option(
            names = "--site",
            paramLabel = "NAME",
            description = "The house's name in topics; the setup's title by default. One name, one house.")
    private @Nullable String siteName;

    @Option(names = "--user", paramLabel = "NAME", description = "Name to log in to the broker with.")
    private @Nullable String user;

    @Option(
            names = "--password-file",
            paramLabel = "FILE",
            description = "File whose first line is the password. There is no option for the password itself: others on"
                    + " the machine could read it.")
    private @Nullable Path passwordFile;

    @Option(
            names = "--ca",
            paramLabel = "FILE",
            description = "Certificates (PEM) that vouch for the broker; those that this machine trusts by default.")
    private @Nullable Path authority;

    @Option(names = "--ndjson", description = "Lines of JSON on standard output.")
    private boolean ndjson;

    @Option(
            names = "--listen",
            paramLabel = "[HOST:]PORT",
            description = "Serves lines of JSON on a TCP port; only to this machine unless HOST says otherwise.")
    private @Nullable String listen;

    @Option(
            names = "--room",
            paramLabel = "MB",
            description =
                    "Memory for what waits while a receiver is away; the oldest readings are dropped, and counted,"
                            + " when it is full (default ${DEFAULT-VALUE}).")
    private int roomMegabytes = (int) (Bridge.USUAL_ROOM_BYTES / 1_000_000);

    @Option(names = "--out", paramLabel = "FILE", description = "Also records into this file (.dwrec); must not exist.")
    private @Nullable Path out;

    @Option(names = "--for", paramLabel = "TIME", description = "How long, such as 8h; without it until stopped.")
    private @Nullable String length;

    @Option(names = "--speed", paramLabel = "N", description = "With FILE: times real time; 1 by default.")
    private double speed = 1;

    BridgeCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        if (url == null && !ndjson && listen == null) {
            throw new InputException("nowhere to: say --mqtt URL, --ndjson or --listen PORT");
        }
        if (roomMegabytes < 1 || roomMegabytes > 4000) {
            throw new InputException("--room " + roomMegabytes + " is not from 1 to 4000 MB");
        }
        if (file != null && (sources.given() || out != null || length != null)) {
            throw new InputException("a recording is played alone: leave out --source, --setup, --out and --for");
        }
        return file == null ? live() : replayed(file);
    }

    private int live() throws Exception {
        Setup setup = sources.setup();
        try (Bridge bridge = bridge(setup)) {
            long forNanos = length == null ? Long.MAX_VALUE : Durations.parseNanos(length);
            BridgeReporter reporter = new BridgeReporter(bridge, console.err());
            RecordSwitch recorder = new RecordSwitch();
            List<SessionListener> listeners = new ArrayList<>(List.of(recorder, bridge, reporter));
            CaptureSession session = Sessions.live(sources.plans(setup), setup, console.stop(), listeners);
            RecordSwitch.Run run = null;
            if (out != null) {
                RecordingErrors.checkTarget(out);
                run = recorder.start(out);
            }
            session.endAt(forNanos);
            console.stop().attend();
            RecordCommand.start(session);
            int code = RecordCommand.tell(
                    console.err(), LiveRun.run(session, console.stop(), run, new HealthReporter(console.err())), run);
            bridge.finish();
            return Math.max(code, reporter.finish() ? 0 : CommandLineProgram.FAILED);
        }
    }

    private int replayed(Path recordingFile) throws Exception {
        if (!(speed > 0)) {
            throw new InputException("--speed " + speed + " is not above 0");
        }
        try (RecordingFile recording = RecordingFile.open(recordingFile)) {
            Setup setup = KeptSetup.of(recording);
            try (Bridge bridge = bridge(setup)) {
                BridgeReporter reporter = new BridgeReporter(bridge, console.err());
                String trouble = play(recording, List.of(bridge, reporter));
                bridge.finish();
                if (trouble != null) {
                    throw new WorkFailedException(trouble);
                }
                return reporter.finish() ? 0 : CommandLineProgram.FAILED;
            }
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        }
    }

    private @Nullable String play(RecordingFile recording, List<SessionListener> listeners) throws Exception {
        StopSignal stop = console.stop();
        stop.attend();
        try (Replayer replayer = new Replayer(recording, Ticker.system(), listeners)) {
            replayer.speed(speed);
            replayer.start();
            replayer.play();
            while (!replayer.awaitEnd(LOOK_MILLIS, TimeUnit.MILLISECONDS)) {
                if (stop.await(0, TimeUnit.MILLISECONDS)) {
                    break;
                }
            }
            return replayer.trouble();
        }
    }

    private Bridge bridge(Setup setup) throws InputException, WorkFailedException {
        Broker broker = url == null ? null : Broker.parse(url, authority, user, FollowLinks.password(passwordFile));
        Site site = siteName == null ? Site.ofTitle(setup.title()) : Site.parse(siteName);
        InetSocketAddress address = listen == null ? null : address(listen);
        Bridge bridge = new Bridge(setup, new Version().getVersion()[0], roomMegabytes * 1_000_000L);
        try {
            if (broker != null) {
                String client = "draftwitness-" + site.name() + "-"
                        + UUID.randomUUID().toString().substring(0, 8);
                bridge.toBroker(broker, site, client, Ticker.system());
                console.err().println("bridging to " + broker + " as " + site.name());
            }
            if (ndjson) {
                bridge.toStream(console.out());
            }
            if (address != null) {
                int port = bridge.listen(address);
                console.err().println("serving lines of JSON on " + address.getHostString() + ":" + port);
            }
        } catch (BridgeException e) {
            bridge.close();
            throw new WorkFailedException(String.valueOf(e.getMessage()), e);
        }
        return bridge;
    }

    private static InetSocketAddress address(String text) throws InputException {
        int colon = text.lastIndexOf(':');
        String host = colon < 0 ? "127.0.0.1" : text.substring(0, colon).replaceAll("^\\[|]$", "");
        try {
            int port = Integer.parseInt(text.substring(colon + 1));
            if (port >= 0 && port <= 65535 && !host.isEmpty()) {
                InetSocketAddress address = new InetSocketAddress(host, port);
                if (!address.isUnresolved()) {
                    return address;
                }
            }
        } catch (NumberFormatException e) {
            throw new InputException("--listen " + text + " is not [HOST:]PORT", e);
        }
        throw new InputException("--listen " + text + " is not [HOST:]PORT of this machine");
    }
}
