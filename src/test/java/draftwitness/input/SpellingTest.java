package draftwitness.input;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class SpellingTest {
    private static final List<String> COMMANDS = List.of("record", "replay", "report", "analyze");

    @Test
    void givenTwoTexts_whenCompared_thenTheEditsBetweenThem() {
        // The textbook pair: kitten, sitten, sittin, sitting (common example, no source).
        assertThat(Spelling.distance("kitten", "sitting")).isEqualTo(3);
        assertThat(Spelling.distance("", "abc")).isEqualTo(3);
    }

    @Test
    void givenAMisspeltWord_whenAsked_thenTheNearNamesOnly() {
        assertThat(Spelling.hint("recrod", COMMANDS)).isEqualTo("; did you mean record?");
        assertThat(Spelling.hint("analyse", COMMANDS)).isEqualTo("; did you mean analyze?");
        assertThat(Spelling.hint("xyz", COMMANDS)).isEmpty();
        assertThat(Spelling.hint("re", COMMANDS)).isEmpty();
    }

    @Test
    void givenAMisspeltRole_whenParsed_thenTheNearOneIsNamed() {
        assertThatThrownBy(() -> Roles.parse("drat.switch"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("'drat.switch' is not a role; did you mean draft.switch? known: draft.switch");
        assertThatThrownBy(() -> Roles.parse("x".repeat(100_000)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("is not a role; known:");
    }
}
