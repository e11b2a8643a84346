package draftwitness.furnace;

/**
 * The air-proving switch: a diaphragm with hysteresis behind a tube, and a contact with its own troubles.
 *
 * <p>The diaphragm makes at the make suction and breaks at the break suction; both may have drifted. Vibration opens a
 * loose wire for milliseconds, a failing contact for longer; a stuck one never opens. Pascal of suction, seconds. Not
 * thread-safe; one owner.
 */
final class PressureSwitch {
    private final Noise noise;
    private boolean diaphragm;
    private boolean contact;
    private double changedAt = -1;
    private double openUntil = -1;
    private double closedUntil = -1;
    private boolean chatter;
    private boolean chatterOpening;

    PressureSwitch(Noise noise) {
        this.noise = noise;
    }

    /** The contact as a meter across it would see it. */
    boolean closed() {
        return contact;
    }

    /** When the contact last changed, s. */
    double changedAt() {
        return changedAt;
    }

    /** Whether the opening that lasts now, or the last one, came from a loose wire. */
    boolean chatter() {
        return chatterOpening;
    }

    /**
     * Moves on.
     *
     * @param suction at the diaphragm
     * @param make suction at which it really makes
     * @param breaks suction at which it really breaks; below {@code make}
     * @param running whether the inducer shakes the wires
     * @param wiring severity of loose wiring, 0 to 1
     * @param faulty severity of a failing contact, 0 to 1
     */
    void step(
            double now,
            double seconds,
            double suction,
            double make,
            double breaks,
            boolean running,
            double wiring,
            double faulty) {
        if (suction >= make) {
            diaphragm = true;
        } else if (suction <= breaks && diaphragm) {
            diaphragm = false;
            if (faulty > 0.5 && noise.chance(0.6 * faulty)) {
                // A burnt contact welds now and then: it stays closed well into standby.
                closedUntil = now + noise.between(60, 400);
            }
        }
        if (running && diaphragm) {
            disturb(now, seconds, wiring, faulty);
        }
        boolean next = now < closedUntil || (diaphragm && now >= openUntil);
        if (next != contact) {
            contact = next;
            changedAt = now;
            chatterOpening = next ? chatterOpening : diaphragm && chatter;
        }
    }

    private void disturb(double now, double seconds, double wiring, double faulty) {
        if (now < openUntil) {
            return;
        }
        if (wiring > 0 && noise.chance(wiring * 0.25 * seconds)) {
            openUntil = now + noise.between(0.010, 0.045);
            chatter = true;
        } else if (faulty > 0 && noise.chance(faulty * faulty * 0.02 * seconds)) {
            openUntil = now + noise.waiting(0.3 + 4 * faulty);
            chatter = false;
        }
    }
}
