package draftwitness.furnace;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.diagnosis.EvidenceDump;
import draftwitness.setup.Setup;

final class CauseAccuracyReport {
    public static void main(String[] args) throws Exception {
        for (Scenario s : Scenarios.list()) {
            if (args.length > 0 && !s.name().startsWith(args[0])) continue;
            for (int seed = 1; seed <= 1; seed++) {
                Simulation sim = Simulation.start(s, seed);
                Setup setup = Setup.parse("s", s.setupText());
                CycleAnalyzer a = new CycleAnalyzer(setup);
                AnalysisFeed.run(sim, Math.min(7200, s.durationSeconds()), a, t -> {});
                System.out.println("== " + s.name() + " " + s.causes());
                System.out.println(EvidenceDump.of(AnalysisFeed.header(sim).channels(), setup, a.report()));
            }
        }
    }
}
