package draftwitness.dashboard;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** The words on screen, from {@code Words.properties} beside this class. Any thread. */
public final class Words {
    private static final ResourceBundle BUNDLE =
            ResourceBundle.getBundle(Words.class.getName(), Locale.ENGLISH, Words.class.getClassLoader());

    private Words() {}

    /**
     * The text of a key, with {@code {0}}, {@code {1}} ... filled in. Numbers are to be formatted before.
     *
     * @throws java.util.MissingResourceException if there is no such key
     */
    public static String get(String key, String... args) {
        return new MessageFormat(BUNDLE.getString(key), Locale.ENGLISH).format(args);
    }

    /** True when there is a text of that key. */
    public static boolean has(String key) {
        return BUNDLE.containsKey(key);
    }
}
