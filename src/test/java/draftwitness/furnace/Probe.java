package draftwitness.furnace;

import draftwitness.reading.Tap;
import java.util.Locale;

final class Probe {
    public static void main(String[] a) throws Exception {
        Scenario s = Scenarios.find(a[0]);
        double to = Double.parseDouble(a[1]);
        double every = Double.parseDouble(a[2]);
        double from = a.length > 3 ? Double.parseDouble(a[3]) : 0;
        Furnace f = new Furnace(s.house(), 1, 1);
        double next = from;
        System.out.println("t state S I C B V n air_g/s gas_g/s flue_g/s manifold flame blocked lambda");
        while (f.now() < to) {
            f.tick();
            if (f.now() >= next) {
                next += every;
                FlowNetwork n = f.network();
                System.out.printf(
                        Locale.ROOT,
                        "%.2f %s %.1f %.1f %.1f %.1f %.1f %.3f %.2f %.3f %.2f %.0f %.2f %.2f%n",
                        f.now(),
                        f.control().state(),
                        f.at(Tap.DRAFT_SWITCH),
                        n.inducer,
                        n.collector,
                        n.burnerBox,
                        n.ventBase,
                        f.inducerSpeed(),
                        n.airFlow * 1e3,
                        n.gasFlow * 1e3,
                        n.ventFlow * 1e3,
                        f.at(Tap.GAS_MANIFOLD),
                        f.at(Tap.FLAME_CURRENT),
                        f.slug().blocked());
            }
        }
    }
}
