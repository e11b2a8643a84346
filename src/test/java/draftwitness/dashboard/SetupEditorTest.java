package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.setup.Setup;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SetupEditorTest {
    private static final String WHOLE = """
            title = "Back \\"hall\\" furnace"
            [switch]
            set-point = "0.95 inH2O"
            differential = "0.08 inH2O"
            ports = 2
            reference = "burner-box"
            [gas]
            kind = "propane"
            manifold = "10 inH2O"
            [sequence]
            pre-purge = 20.5
            attempts = 4
            [inducer]
            stages = 2
            [air]
            external-static-max = "0.5 inH2O"
            [sources]
            "draft.switch" = "ascii-line@serial:/dev/ttyUSB0?baud=9600"
            """;

    private final FakeSetups setups = new FakeSetups();
    private final SetupEditor editor = new SetupEditor(setups);

    @Test
    void givenASetupFile_whenDraftedAndWritten_thenItSaysTheSame() throws InputException {
        SetupDraft draft = SetupDraft.of("a", WHOLE);
        Setup before = Setup.parse("a", WHOLE);
        Setup after = Setup.parse("b", draft.toToml());
        assertThat(after.title()).isEqualTo("Back \"hall\" furnace");
        assertThat(after.pressureSwitch()).isEqualTo(before.pressureSwitch());
        assertThat(after.gas()).isEqualTo(before.gas());
        assertThat(after.sequence()).isEqualTo(before.sequence());
        assertThat(after.inducerStages()).isEqualTo(2);
        assertThat(after.externalStaticMaxPascals()).isEqualTo(before.externalStaticMaxPascals());
        assertThat(after.sources()).isEqualTo(before.sources());
        assertThat(SetupDraft.of("b", draft.toToml())).isEqualTo(draft);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
                    # field,     typed,          wrong?
                    SET_POINT,   0.60 inH2O,     false
                    SET_POINT,   0.60,           true
                    SET_POINT,   -1 Pa,          true
                    SET_POINT,   about half,     true
                    PRE_PURGE,   15,             false
                    PRE_PURGE,   fifteen,        true
                    ATTEMPTS,    3,              false
                    ATTEMPTS,    3.5,            true
                    GAS_KIND,    natural,        false
                    GAS_KIND,    coal,           true
                    TITLE,       "a = ""b"" \\",  false
                    """)
    void givenALine_whenTyped_thenItTellsWhetherItCanBeUsed(SetupField field, String typed, boolean wrong) {
        SetupDraft draft = SetupDraft.empty().with(field, typed);
        assertThat(draft.problem(field) != null).isEqualTo(wrong);
    }

    @Test
    void givenTyping_whenUndone_thenALineIsOneStepAndRedoBringsItBack() {
        editor.type(SetupField.TITLE, "B");
        editor.type(SetupField.TITLE, "Back hall");
        editor.type(SetupField.SET_POINT, "0.60 inH2O");
        editor.undo();
        assertThat(editor.draft().text(SetupField.SET_POINT)).isEmpty();
        assertThat(editor.draft().text(SetupField.TITLE)).isEqualTo("Back hall");
        editor.undo();
        assertThat(editor.draft()).isEqualTo(SetupDraft.empty());
        assertThat(editor.canUndo()).isFalse();
        editor.redo();
        editor.redo();
        assertThat(editor.draft().text(SetupField.SET_POINT)).isEqualTo("0.60 inH2O");
        assertThat(editor.canRedo()).isFalse();
    }

    @Test
    void givenUnsavedChanges_whenAnotherSetupIsOpened_thenUndoBringsThemBack() throws InputException {
        setups.kept.put("garage", "title = \"Garage\"");
        editor.type(SetupField.TITLE, "Half typed");
        editor.open("garage");
        assertThat(editor.draft().text(SetupField.TITLE)).isEqualTo("Garage");
        assertThat(editor.isChanged()).isFalse();
        editor.undo();
        assertThat(editor.draft().text(SetupField.TITLE)).isEqualTo("Half typed");
        assertThat(editor.isChanged()).isTrue();
    }

    @Test
    void givenASetup_whenSavedUnderAnotherName_thenTheFirstStays() throws InputException {
        editor.type(SetupField.TITLE, "Back hall");
        editor.save("back-hall");
        editor.type(SetupField.TITLE, "Attic");
        editor.save("attic");
        assertThat(setups.kept.get("back-hall")).contains("Back hall");
        assertThat(setups.kept.get("attic")).contains("Attic");
        assertThat(editor.name()).isEqualTo("attic");
    }

    @Test
    void givenADraftThatIsWrong_whenSaved_thenItIsRefusedAndKept() {
        editor.type(SetupField.SET_POINT, "0.60");
        assertThatThrownBy(() -> editor.save("x"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("set-point");
        assertThatThrownBy(() -> editor.save(" "))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("name");
        assertThat(setups.kept).isEmpty();
        assertThat(editor.draft().text(SetupField.SET_POINT)).isEqualTo("0.60");
    }

    @Test
    void givenAFullDisk_whenSaved_thenNothingIsLost() {
        editor.type(SetupField.TITLE, "Back hall");
        setups.full = true;
        assertThatThrownBy(() -> editor.save("x")).hasMessageContaining("disk is full");
        assertThat(editor.isChanged()).isTrue();
        assertThat(Objects.requireNonNull(editor.draft()).text(SetupField.TITLE))
                .isEqualTo("Back hall");
    }

    @Test
    void givenEveryField_whenShown_thenItHasALabelAndAHint() {
        for (SetupField field : SetupField.values()) {
            assertThat(field.label()).isNotBlank();
            assertThat(field.hint()).isNotBlank();
        }
    }
}
