package draftwitness.dashboard.view;

import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import com.formdev.flatlaf.util.UIScale;
import draftwitness.dashboard.Palette;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.Theme;
import java.awt.Font;
import java.util.Locale;
import java.util.Map;
import javax.swing.UIManager;

/** Puts a theme's colours into the look and feel, and tells painters what to use. Event dispatch thread. */
final class ThemeSetup {
    private ThemeSetup() {}

    /** Installs a theme; windows that are open must update their component trees afterwards. */
    static void install(Settings settings) {
        Theme theme = settings.theme();
        Palette p = theme.palette();
        FlatLaf.setGlobalExtraDefaults(Map.ofEntries(
                Map.entry("@background", hex(p.ground())),
                Map.entry("@foreground", hex(p.ink())),
                Map.entry("@accentColor", hex(p.accent())),
                Map.entry("@disabledForeground", hex(p.quietInk())),
                Map.entry("Component.focusWidth", "2"),
                Map.entry("Component.arc", "10"),
                Map.entry("Button.arc", "12"),
                Map.entry("TextComponent.arc", "10"),
                Map.entry("ToggleButton.selectedBackground", hex(p.accent())),
                Map.entry("ToggleButton.selectedForeground", hex(p.onAccent())),
                Map.entry("Component.borderColor", hex(p.contactOpen())),
                Map.entry("Button.borderColor", hex(p.contactOpen())),
                Map.entry("ToggleButton.borderColor", hex(p.contactOpen()))));
        if (theme == Theme.DARK) {
            FlatDarkLaf.setup();
        } else {
            FlatLightLaf.setup();
        }
    }

    /** What painters use with these settings and the scaling in force. */
    static Look look(Settings settings) {
        Font font = UIManager.getFont("defaultFont");
        String family = font == null ? Font.SANS_SERIF : font.getFamily();
        return new Look(settings.theme().palette(), family, UIScale.getUserScaleFactor() * settings.textScale());
    }

    private static String hex(int rgb) {
        return String.format(Locale.ROOT, "#%06x", rgb);
    }
}
