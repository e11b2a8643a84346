package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.ResourceBundle;
import org.junit.jupiter.api.Test;

class WordsTest {

    /**
     * "From the inducer''s start" once stood on screen: texts without places to fill in were not read as the others.
     */
    @Test
    void givenEveryText_whenAsked_thenQuotesStandOnceWhetherOrNotThereIsSomethingToFillIn() {
        ResourceBundle all = ResourceBundle.getBundle(Words.class.getName(), Locale.ENGLISH);
        for (String key : all.keySet()) {
            assertThat(Words.get(key, "1", "2", "3")).as(key).doesNotContain("''");
            assertThat(Words.get(key)).as(key).doesNotContain("''");
        }
        assertThat(Words.get("compare.what")).isEqualTo("From the inducer's start");
        assertThat(Words.get("plate.on", "871.8 Pa")).isEqualTo("on the plate's 871.8 Pa");
    }
}
