package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Air, gas and flow against published values; the source stands beside each. */
final class FlowPhysicsTest {
    private static final double POUND_PER_SQUARE_INCH = 6894.757293168361;
    private static final double FOOT = 0.3048;
    private static final double INCH_OF_WATER = 249.08891;

    // ISO 2533:1975 / ICAO Doc 7488; last digit as printed there.
    @ParameterizedTest
    @CsvSource(textBlock = """
            # metres, kelvin, pascal, kg/m3
            0,    288.15, 101325,  1.22500
            500,  284.90, 95460.8, 1.16727
            1000, 281.65, 89874.6, 1.11164
            1500, 278.40, 84556.0, 1.05807
            2000, 275.15, 79495.2, 1.00649
            3000, 268.65, 70108.5, 0.90912
            5000, 255.65, 54019.9, 0.73612
            """)
    void givenAltitude_thenStandardAtmosphere(double metres, double kelvin, double pascals, double density) {
        double p = Atmosphere.pressure(metres);
        assertThat(Atmosphere.temperature(metres)).isCloseTo(kelvin, within(0.005));
        assertThat(p).isCloseTo(pascals, within(0.06));
        assertThat(Atmosphere.density(p, kelvin)).isCloseTo(density, within(1.01e-5));
    }

    // Ideal gas law with R = 287.05287 J/(kg K) of ISO 2533:1975, at 101 325 Pa; rounded to four decimals.
    @ParameterizedTest
    @CsvSource(textBlock = """
            # degC, kg/m3
            15,  1.2250
            20,  1.2041
            100, 0.9460
            150, 0.8342
            200, 0.7460
            """)
    void givenTemperature_thenDensityByIdealGasLaw(double celsius, double density) {
        assertThat(Atmosphere.density(101_325, celsius + Atmosphere.ZERO_CELSIUS))
                .isCloseTo(density, within(1e-4));
    }

    /**
     * "Steam, Its Generation and Use" (public domain), formula (24): a stack of 100 ft, air at 521 R and gas at 961 R,
     * gives 0.67 in of water at 14.7 psi; 0.45 is printed for 10 psi, where the formula itself gives 0.457.
     */
    @ParameterizedTest
    @CsvSource({"14.7, 0.67, 0.005", "10, 0.457, 0.005"})
    void givenStackOfHundredFeet_thenDraftAsPublished(double psi, double inches, double tolerance) {
        double p = psi * POUND_PER_SQUARE_INCH;
        double outside = Atmosphere.density(p, 521 / 1.8);
        double inside = Atmosphere.density(p, 961 / 1.8);
        assertThat(Atmosphere.stackDraft(100 * FOOT, outside, inside) / INCH_OF_WATER)
                .isCloseTo(inches, within(tolerance));
    }

    /**
     * Fan laws: flow with speed, pressure with its square, power with its cube. A homework sheet "Fan Laws" of a
     * university prints 6000 cfm, 4.00 in, 6 hp at 2000 rpm -> 4500, 2.25, 2.53 at 1500 rpm; and 2000 cfm, 3.00 in, 1.0
     * kW at 1300 rpm -> 2308, 3.99, 1.54 at 1500 rpm.
     */
    @ParameterizedTest
    @CsvSource({"6000, 4.00, 6, 2000, 1500, 4500, 2.25, 2.53", "2000, 3.00, 1.0, 1300, 1500, 2308, 3.99, 1.54"})
    void givenSpeedChange_whenWorkingOnTheSameDuct_thenFanLaws(
            double cfm, double inches, double power, double rpm, double newRpm, double q2, double p2, double w2) {
        FlowNetwork net = duct();
        net.fanSpeed = 0.8;
        net.solve();
        double q = net.ventFlow;
        double p = net.ventBase - net.inducer;
        double w = net.fan.power(net.inducerDensity, net.fanSpeed, net.ventFlow);
        net.fanSpeed *= newRpm / rpm;
        net.solve();
        assertThat(cfm * net.ventFlow / q).isCloseTo(q2, Percentage.withPercentage(0.1));
        assertThat(inches * (net.ventBase - net.inducer) / p).isCloseTo(p2, within(0.006));
        assertThat(power * net.fan.power(net.inducerDensity, net.fanSpeed, net.ventFlow) / w)
                .isCloseTo(w2, within(0.006));
    }

    /**
     * NFPA 54 Table E.1.1(a), drill size 80: 0.52 ft3/h at 3.5 in of water, 0.63 at 5, 0.73 at 7, 0.88 at 10. The
     * printed small sizes follow the root of the pressure only roughly; 5 % allowed.
     */
    @ParameterizedTest
    @CsvSource({"3, 0.48", "5, 0.63", "7, 0.73", "10, 0.88"})
    void givenManifoldPressure_thenGasFlowFollowsOrificeTable(double inches, double printed) {
        double ratio = manifoldFlow(inches * INCH_OF_WATER) / manifoldFlow(3.5 * INCH_OF_WATER);
        assertThat(ratio * 0.52).isCloseTo(printed, Percentage.withPercentage(5));
    }

    /** Orifice law: flow goes with the root of the pressure difference, so double the pressure is +41.42 % flow. */
    @Test
    void givenDoubleManifoldPressure_thenFlowGrowsByRootOfTwo() {
        assertThat(manifoldFlow(1600) / manifoldFlow(800)).isCloseTo(Math.sqrt(2), within(1e-4));
        double air = Restriction.flow(1e6, 1.2, 200) / Restriction.flow(1e6, 1.2, 100);
        assertThat(air).isCloseTo(Math.sqrt(2), within(1e-3));
    }

    private static double manifoldFlow(double pascals) {
        GasTrain gas = new GasTrain(new House.GasRating(false, pascals, pascals / 2, 4 * pascals));
        GasTrain reference = new GasTrain(new House.GasRating(false, 800, 400, 4 * pascals));
        GasTrain.GasFaults setting = new GasTrain.GasFaults(0, 0, pascals / 800, 0, true);
        for (int i = 0; i < 1000; i++) {
            gas.step(true, false, true, 0, new GasTrain.GasFaults(0, 0, 1, 0, true), 0.01);
            reference.step(true, false, true, 0, setting, 0.01);
        }
        assertThat(gas.manifold()).isCloseTo(pascals, within(1e-6));
        return reference.flow();
    }

    /** Mass is counted again at each node, from the pressures alone and each element's own law. */
    @Test
    void givenRandomNetworks_whenSolved_thenMassIsConservedAtEachNode() {
        Noise random = Noise.of(20260117, "networks");
        for (int i = 0; i < 2000; i++) {
            FlowNetwork net = randomNetwork(random);
            net.solve();
            double burner = flowThroughBurner(net);
            double intake = Restriction.flow(net.intakeLoss, net.airDensity, net.intakePascals - net.burnerBox);
            double drain = Restriction.flow(net.drainLeakLoss, net.roomDensity, -net.collector);
            double breach = Restriction.flow(net.breachLoss, net.roomDensity, net.airSidePascals - net.collector);
            double secondary = Restriction.flow(net.secondaryLoss, net.secondaryDensity, net.collector - net.inducer);
            double vent = Restriction.flow(
                    net.ventLoss, net.ventDensity, net.ventBase + net.buoyancyPascals - net.terminalPascals);
            double scale = Math.abs(intake) + Math.abs(drain) + Math.abs(breach) + Math.abs(vent);
            assertThat(burner - intake).as("burner box, case " + i).isCloseTo(0, within(1e-9 * scale));
            assertThat(burner + net.gasFlow + net.expansionFlow + drain + breach - secondary)
                    .as("collector, case " + i)
                    .isCloseTo(0, within(1e-9 * scale));
            assertThat(secondary - vent).as("inducer, case " + i).isCloseTo(0, within(1e-9 * scale));
        }
    }

    /** Burner and primary exchanger in series: the flow at which both drops add up, by bisection. */
    private static double flowThroughBurner(FlowNetwork net) {
        double low = -1;
        double high = 1;
        for (int i = 0; i < 200; i++) {
            double m = (low + high) / 2;
            double drop = Restriction.drop(net.burnerLoss, net.airDensity, m)
                    + Restriction.drop(net.primaryLoss, net.primaryDensity, m);
            if (drop < net.burnerBox - net.collector) {
                low = m;
            } else {
                high = m;
            }
        }
        return (low + high) / 2;
    }

    private static FlowNetwork duct() {
        FlowNetwork net = new FlowNetwork(Fan.usual());
        net.intakeLoss = Restriction.ofDesign(20, 0.0095, 1.2);
        net.burnerLoss = Restriction.ofDesign(90, 0.0095, 1.2);
        net.primaryLoss = Restriction.ofDesign(60, 0.0095, 0.46);
        net.secondaryLoss = Restriction.ofDesign(170, 0.0099, 0.80);
        net.ventLoss = Restriction.ofDesign(20, 0.0099, 1.05);
        return net;
    }

    private static FlowNetwork randomNetwork(Noise random) {
        FlowNetwork net = duct();
        net.ventLoss *= random.between(0.5, 40);
        net.intakeLoss *= random.between(0.5, 40);
        net.secondaryLoss *= random.between(0.5, 8);
        net.drainLeakLoss = Restriction.ofDesign(200, random.between(1e-5, 3e-3), 1.2);
        net.breachLoss = Restriction.ofDesign(250, random.between(1e-5, 3e-3), 1.2);
        net.primaryDensity = random.between(0.4, 1.3);
        net.secondaryDensity = random.between(0.7, 1.3);
        net.inducerDensity = random.between(0.9, 1.3);
        net.ventDensity = random.between(0.9, 1.3);
        net.gasFlow = random.between(0, 6e-4);
        net.expansionFlow = random.between(-5e-3, 5e-3);
        net.fanSpeed = random.between(0, 1.1);
        net.terminalPascals = random.between(-100, 150);
        net.intakePascals = random.between(-60, 90);
        net.airSidePascals = random.between(0, 100);
        net.buoyancyPascals = random.between(-3, 10);
        return net;
    }
}
