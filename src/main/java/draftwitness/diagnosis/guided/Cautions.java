package draftwitness.diagnosis.guided;

import java.util.ArrayList;
import java.util.List;

/** What to mind with each measurement, in plain sentences; to be shown before and while it runs. Pure. */
public final class Cautions {
    private static final String LICENSED =
            "Work by licensed persons under local codes and the appliance's instructions.";
    private static final String BYPASS =
            "Never bypass or jumper a pressure switch, limit or flame sensor to keep a furnace running.";
    private static final String MONOXIDE =
            "Carbon monoxide kills: low or reversed draft, a breached exchanger or a blocked vent means that the"
                    + " appliance is left off until made safe.";
    private static final String GAS_TAPS =
            "Shut the gas before opening a tap; use a leak test afterwards and refit the plug.";
    private static final String CONTACT =
            "Control circuits are 24 V AC and may carry more: use an isolated contact input.";
    private static final String ADVICE = "The program advises; it is not a safety device and proves nothing safe.";

    private Cautions() {}

    /** The cautions of a measurement, most pressing first. */
    public static List<String> of(GuidedKind kind) {
        List<String> out = new ArrayList<>();
        switch (kind) {
            case LEAK_DOWN, LEAK_DOWN_PARTS -> {
                out.add("Furnace off. Pull no more suction than the switch is made for.");
                out.add("Put the tube back and see that the furnace proves its draft by itself.");
                out.add(BYPASS);
            }
            case SWITCH_POINTS -> {
                out.add(CONTACT);
                out.add("Furnace off while the tube is off; put it back before it runs.");
                out.add(BYPASS);
            }
            case TWO_TAPS, BEFORE_AFTER -> {
                out.add("Close every port again afterwards.");
                out.add(MONOXIDE);
                out.add(BYPASS);
            }
            case GAS -> {
                out.add(GAS_TAPS);
                out.add(LICENSED);
                out.add(MONOXIDE);
            }
            case STATIC_PRESSURE -> {
                out.add("Keep drill and probe clear of coil, exchanger and wiring; plug the holes afterwards.");
                out.add(LICENSED);
            }
            case VENT_ON_OFF -> {
                out.add(
                        "Shut the gas: nothing may burn while the vent is off. Refit and check the vent before firing.");
                out.add(MONOXIDE);
                out.add(LICENSED);
            }
        }
        out.add(ADVICE);
        return List.copyOf(out);
    }
}
