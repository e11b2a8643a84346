package draftwitness.report;

import java.util.List;

/** What everybody must mind who works on a gas appliance; said with every result that is handed on. */
public final class Cautions {
    /** One or two sentences each. */
    public static final List<String> ALL = List.of(
            "Work on gas appliances belongs to licensed persons under local codes and the appliance's own instructions; its"
                    + " rating plate wins over any number here.",
            "Never bypass or jumper a pressure switch, limit or flame sensor to keep a furnace running.",
            "Carbon monoxide kills. With low or reversed draft, a breached heat exchanger or a blocked vent the appliance is"
                    + " left off until it is made safe.",
            "Gas taps: shut the gas before opening, leak-test afterwards, refit the plug.",
            "Contact inputs: control circuits are 24 V AC and may carry more; use an isolated input.",
            "This program advises. It is not a safety device and proves nothing safe.");

    private Cautions() {}
}
