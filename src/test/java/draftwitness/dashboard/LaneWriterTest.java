package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LaneWriterTest {
    private static final long SECOND = 1_000_000_000L;
    private static final Instant START = Instant.parse("2026-01-17T14:00:00Z");

    private static ShownSession session(Tap tap, Unit unit, int decimals, long count, SourceEvent... events) {
        Channel channel = new Channel(tap, "s", "p", unit);
        SessionModel model = new SessionModel();
        model.begin(new SessionHeader(START, "", 1, List.of(channel), List.of(), ""));
        Block block = new Block(channel, new Step(unit, decimals), new long[] {10}, new long[] {count});
        model.slice(new Slice(0, List.of(block), List.of(events)));
        return Objects.requireNonNull(model.shown());
    }

    private static LaneHeader write(ShownSession session, String setup, long at, UnitChoice units)
            throws InputException {
        Channel channel = session.header().channels().get(0);
        return new LaneWriter(session, Setup.parse("setup", setup), at, ZoneOffset.UTC)
                .write(channel, units.of(channel));
    }

    // Bands of the margin: under 0.25 in w.c. thin, to 0.75 modest, above healthy (common practice, no source).
    @ParameterizedTest
    @CsvSource(textBlock = """
                    # reading, note,                              tone
                    -0.02,     'at rest, makes at 0.60 inH2O of suction', QUIET
                    -0.50,     '0.10 inH2O short of set point',            ATTENTION
                    -0.60,     'margin 0.00 inH2O: thin',   ATTENTION
                    -0.84,     'margin 0.24 inH2O: thin',   ATTENTION
                    -0.86,     'margin 0.26 inH2O: modest',      NORMAL
                    -1.34,     'margin 0.74 inH2O: modest',      NORMAL
                    -1.36,     'margin 0.76 inH2O: healthy',     NORMAL
                    0.10,      'at rest, makes at 0.60 inH2O of suction', QUIET
                    """)
    void givenASetPoint_whenSuctionIsRead_thenTheMarginIsToldInWords(double reading, String note, Tone tone)
            throws InputException {
        ShownSession s = session(Tap.DRAFT_SWITCH, Unit.INCH_OF_WATER, 2, Math.round(reading * 100));
        LaneHeader header = write(s, "[switch]\nset-point = \"0.60 inH2O\"", SECOND, UnitChoice.AS_SENT);
        assertThat(header.note()).isEqualTo(note);
        assertThat(header.noteTone()).isEqualTo(tone);
        assertThat(header.title()).isEqualTo("Draft at switch");
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
                    3.60, 'on the plate''s 3.50 inH2O',           NORMAL
                    3.90, '11 % above the plate''s 3.50 inH2O',   ATTENTION
                    3.00, '14 % below the plate''s 3.50 inH2O',   ATTENTION
                    0.00, 'at rest, plate says 3.50 inH2O',       QUIET
                    """)
    void givenAPlate_whenManifoldIsRead_thenItIsComparedWithIt(double reading, String note, Tone tone)
            throws InputException {
        ShownSession s = session(Tap.GAS_MANIFOLD, Unit.INCH_OF_WATER, 2, Math.round(reading * 100));
        LaneHeader header = write(s, "[gas]\nmanifold = \"3.5 inH2O\"", SECOND, UnitChoice.AS_SENT);
        assertThat(header.note()).isEqualTo(note);
        assertThat(header.noteTone()).isEqualTo(tone);
    }

    @Test
    void givenNoSetPoint_whenSuctionIsRead_thenNoMarginIsInvented() throws InputException {
        LaneHeader header =
                write(session(Tap.DRAFT_SWITCH, Unit.PASCAL, 1, -2314), "", SECOND, UnitChoice.INCH_OF_WATER);
        assertThat(header.note()).isEmpty();
        assertThat(header.figure()).isEqualTo("\u22120.929"); // 231.4 / 249.08891
        assertThat(header.unit()).isEqualTo("inH2O");
        assertThat(header.sense()).isEqualTo("suction");
        assertThat(header.spoken()).isEqualTo("Draft at switch: \u22120.929 inH2O suction");
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
                    GONE,     'gone since 14:00:02',           DANGER,    QUIET
                    RETRYING, 'gone since 14:00:02, retrying', DANGER,    QUIET
                    SILENT,   'silent since 14:00:02',         ATTENTION, QUIET
                    FINISHED, 'ended at 14:00:02',             QUIET,     QUIET
                    LIVE,     'no reading for 4 s',            ATTENTION, QUIET
                    """)
    void givenASourceInTrouble_whenWritten_thenItIsToldAndTheLastFigureStays(
            SourceState state, String text, Tone tone, Tone figureTone) throws InputException {
        ShownSession s =
                session(Tap.DRAFT_SWITCH, Unit.PASCAL, 1, -2314, new SourceEvent("s", 2 * SECOND, state, "unplugged"));
        LaneHeader header = write(s, "", 4 * SECOND + 20, UnitChoice.AS_SENT);
        assertThat(header.source()).isEqualTo(text);
        assertThat(header.sourceTone()).isEqualTo(tone);
        assertThat(header.figure()).isEqualTo("\u2212231.4");
        assertThat(header.figureTone()).isEqualTo(figureTone);
    }

    @Test
    void givenTroubleThatChangesItsName_whenWritten_thenItIsSinceTheFirstOfIt() throws InputException {
        ShownSession s = session(
                Tap.DRAFT_SWITCH,
                Unit.PASCAL,
                1,
                -2314,
                new SourceEvent("s", 2 * SECOND, SourceState.SILENT, ""),
                new SourceEvent("s", 3 * SECOND, SourceState.GONE, ""),
                new SourceEvent("s", 4 * SECOND, SourceState.RETRYING, ""));
        assertThat(write(s, "", 9 * SECOND, UnitChoice.AS_SENT).source()).isEqualTo("gone since 14:00:02, retrying");
        assertThat(write(s, "", SECOND, UnitChoice.AS_SENT).source()).isEmpty();
    }

    @Test
    void givenAContact_whenItStaysSilent_thenItsStateHolds() throws InputException {
        LaneHeader header =
                write(session(Tap.CONTACT_SWITCH, Unit.CONTACT, 0, 1), "", 100 * SECOND, UnitChoice.INCH_OF_WATER);
        assertThat(header.figure()).isEqualTo("closed");
        assertThat(header.unit()).isEmpty();
        assertThat(header.source()).isEmpty();
    }

    @Test
    void givenATwoPortSwitch_whenTheBurnerBoxIsRead_thenTheMarginIsOfTheDifference() throws InputException {
        Channel at = new Channel(Tap.DRAFT_SWITCH, "s", "p", Unit.PASCAL);
        Channel box = new Channel(Tap.DRAFT_BURNER_BOX, "b", "p", Unit.PASCAL);
        SessionModel model = new SessionModel();
        model.begin(new SessionHeader(START, "", 1, List.of(at, box), List.of(), ""));
        Step whole = new Step(Unit.PASCAL, 0);
        model.slice(new Slice(
                0,
                List.of(
                        new Block(at, whole, new long[] {10}, new long[] {-300}),
                        new Block(box, whole, new long[] {10}, new long[] {-60})),
                List.of()));
        String setup = "[switch]\nset-point = \"200 Pa\"\nports = 2\nreference = \"burner-box\"";
        LaneHeader header = write(Objects.requireNonNull(model.shown()), setup, SECOND, UnitChoice.AS_SENT);
        assertThat(header.note()).isEqualTo("margin 40 Pa: thin"); // 300 - 60 - 200
    }

    @Test
    void givenEveryTap_whenNamed_thenThereAreWordsForIt() {
        for (Tap tap : Tap.values()) {
            assertThat(LaneTitles.of(tap)).isNotBlank();
        }
    }
}
