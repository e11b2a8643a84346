package draftwitness.furnace;

import draftwitness.reading.Tap;

/**
 * The furnace itself: motor, flow, heat, gas, water, switch, wind, stepped together with its burner control.
 *
 * <p>How it works: every {@value #TICK_SECONDS} s the weather and the control have their say; between two ticks the
 * physics moves in one or more equal steps. In each step the flame and the metal set the densities, the motor its
 * speed, the water its way; then the flow network is solved for the pressures, and the tubes carry them to the switch
 * and the instruments. Flow settles within milliseconds in a furnace and is taken as settled; what gas expands at
 * light-off is a flow of its own.
 *
 * <p>Sizes are those of an invented condensing furnace of about 20 kW, chosen so that levels and times are typical
 * ones; from memory, no source. SI units. Not thread-safe; one owner.
 */
final class Furnace {
    /** Time between two looks of the control, s. */
    static final double TICK_SECONDS = 0.01;

    private static final double DESIGN_MASS = 0.0095;
    private static final double METAL_SECONDS = 35;
    /** How long the gas stays in the primary exchanger: its volume over the hot flow. */
    private static final double RESIDENCE_SECONDS = 0.35;

    /** Pressure of the air around the exchanger, just above the blower. */
    private static final double AIR_SIDE_PASCALS = 150;

    private static final double VENT_RISE_METRES = 2;
    private static final double HOT_VOLUME = 0.0036;

    private final House house;
    private final FlowNetwork net;
    private final Motor motor = new Motor();
    private final GasTrain gas;
    private final Slug slug;
    private final PressureSwitch pressureSwitch;
    private final BurnerControl control;
    private final Thermostat thermostat;
    private final Troubles troubles;
    private final Weather weather;
    private final Bubbles drainBubbles;
    private final Bubbles trapBubbles;
    private final Gust fastTurbulence;
    private final Gust slowTurbulence;
    private final Noise flameNoise;

    private final Lag hotGas = new Lag(0);
    private final Lag metal = new Lag(0);
    private final Lag ventWarmth = new Lag(0);
    private final Tube tube = new Tube();
    private final Lag inducerTap = new Lag(0);
    private final Lag collectorTap = new Lag(0);
    private final Lag ventTap = new Lag(0);
    private final Lag burnerBoxTap = new Lag(0);
    private final Lag blowerSpeed = new Lag(0);

    private final double pascals;
    private final int substeps;
    private double now;
    private long ticks;
    private double water;
    private double flameMicroamperes;
    private double ventLoss;
    private double secondaryLoss;

    Furnace(House house, long seed, int substeps) {
        this.house = house;
        this.substeps = substeps;
        pascals = Atmosphere.pressure(house.place().altitudeMetres());
        net = new FlowNetwork(new Fan(470 * house.flue().strength(), 5.0e5));
        gas = new GasTrain(house.gas());
        slug = new Slug(house.flue().columnMetres());
        pressureSwitch = new PressureSwitch(Noise.of(seed, "contact"));
        control = new BurnerControl(house.sequence());
        thermostat = new Thermostat(house.calls(), Noise.of(seed, "thermostat"));
        troubles = new Troubles(house.faults(), Noise.of(seed, "troubles"));
        weather = new Weather(house.place(), Noise.of(seed, "wind"), Noise.of(seed, "weather"));
        drainBubbles = new Bubbles(Noise.of(seed, "drain"), 1, 4);
        trapBubbles = new Bubbles(Noise.of(seed, "trap"), 2, 8);
        fastTurbulence = new Gust(Noise.of(seed, "turbulence"));
        slowTurbulence = new Gust(Noise.of(seed, "slow turbulence"));
        flameNoise = Noise.of(seed, "flame");
        setUpPath();
        densities(TICK_SECONDS);
        net.expansionFlow = 0;
    }

    private void setUpPath() {
        boolean sealed = house.flue().pipes() == 2;
        net.intakeLoss = Restriction.ofDesign(sealed ? 20 : 2, DESIGN_MASS, 1.2);
        net.burnerLoss = Restriction.ofDesign(90, DESIGN_MASS, 1.2);
        net.primaryLoss = Restriction.ofDesign(60, DESIGN_MASS, 0.46);
        secondaryLoss = Restriction.ofDesign(170, 0.0099, 0.80);
        ventLoss = Restriction.ofDesign(20, 0.0099, 1.05) * house.flue().ventFactor();
    }

    double now() {
        return now;
    }

    BurnerControl control() {
        return control;
    }

    PressureSwitch pressureSwitch() {
        return pressureSwitch;
    }

    Thermostat thermostat() {
        return thermostat;
    }

    FlowNetwork network() {
        return net;
    }

    Slug slug() {
        return slug;
    }

    /** Inducer speed relative to rated. */
    double inducerSpeed() {
        return motor.speed();
    }

    /** Moves on by one tick. */
    void tick() {
        if (ticks % 10 == 0) {
            troubles.update(now);
        }
        weather(TICK_SECONDS);
        double dt = TICK_SECONDS / substeps;
        for (int i = 0; i < substeps; i++) {
            physics(dt);
        }
        ticks++;
        now = ticks * TICK_SECONDS;
        switchAndFlame();
        thermostat.step(now, gas.flame() * gas.rate(), TICK_SECONDS);
        boolean gasBefore = control.gasValve();
        control.step(now, thermostat.calling(), pressureSwitch.closed(), flameMicroamperes);
        if (control.gasValve() && !gasBefore) {
            troubles.trialBegins();
        }
    }

    private void weather(double seconds) {
        weather.step(troubles.of(Cause.WIND_AT_TERMINAL), seconds);
        net.terminalPascals = weather.terminalPascals();
        net.intakePascals = house.flue().pipes() == 2 ? 0.6 * weather.terminalPascals() : 0;
        if (motor.speed() > 0.02) {
            net.fanDisturbance = 0.005 * fastTurbulence.step(0.03, seconds) + 0.002 * slowTurbulence.step(0.8, seconds);
            drainBubbles.step(now, water > 0.25);
            trapBubbles.step(now, troubles.of(Cause.TRAP_DRY) > 0);
        }
    }

    private void physics(double seconds) {
        double firing = gas.flame() * gas.rate();
        gas.step(
                control.gasValve(),
                house.flue().stages() == 2 && control.lowFire(now),
                control.igniter(),
                net.burnerBox,
                troubles.gas(house.gas().inletPascals()),
                seconds);
        motor.step(
                control.inducer(),
                control.lowFire(now) && house.flue().stages() == 2,
                troubles.of(Cause.INDUCER_WEAK),
                net,
                seconds);
        blowerSpeed.stepHeld(control.blower(now) ? 1 : 0, 0.8, seconds);
        metal.step(firing * (1.08 - 0.08 * blowerSpeed.value()), METAL_SECONDS, seconds);
        densities(seconds);
        condensate(firing, seconds);
        obstacles();
        net.gasFlow = gas.flow();
        net.fanSpeed = motor.speed();
        net.airSidePascals = AIR_SIDE_PASCALS * blowerSpeed.value() * blowerSpeed.value();
        net.solve();
        tubes(seconds);
    }

    private void densities(double seconds) {
        double room = house.place().roomCelsius() + Atmosphere.ZERO_CELSIUS;
        double outdoor = house.place().outdoorCelsius() + Atmosphere.ZERO_CELSIUS;
        double air = house.flue().pipes() == 2 ? (room + outdoor) / 2 : room;
        double firing = gas.flame() * gas.rate();
        double hot = hotGas.step(firing, RESIDENCE_SECONDS, seconds);
        double warm = metal.value();
        double before = net.primaryDensity;
        net.airDensity = Atmosphere.density(pascals, air);
        net.roomDensity = Atmosphere.density(pascals, room);
        net.primaryDensity = Atmosphere.density(pascals, air + 230 * hot + 240 * warm);
        net.secondaryDensity = Atmosphere.density(pascals, air + 15 * hot + 115 * warm);
        net.inducerDensity = Atmosphere.density(pascals, air + 6 * hot + 34 * warm);
        double vent = ventWarmth.step(6 * hot + 30 * warm, 15, seconds);
        net.ventDensity = Atmosphere.density(pascals, air + vent);
        net.expansionFlow = HOT_VOLUME * (before - net.primaryDensity) / seconds;
        net.buoyancyPascals =
                Atmosphere.stackDraft(VENT_RISE_METRES, Atmosphere.density(pascals, outdoor), net.ventDensity);
    }

    private void condensate(double firing, double seconds) {
        double vent = troubles.of(Cause.CONDENSATE_IN_VENT);
        // Some of the water runs back by itself; what is left fills the low spot.
        double gathering = firing * 0.0042 * vent - 0.0011 * slug.fill() * (firing > 0 ? 0.4 : 1);
        slug.fillTo(slug.fill() + gathering * seconds);
        slug.step(net.ventFlow, net.ventDensity, 0.06 * fastTurbulence.value() * motor.speed(), seconds);
        double drain = troubles.of(Cause.DRAIN_BLOCKED);
        water = Math.max(0, Math.min(1, water + (firing * 0.006 * drain - (firing > 0 ? 0.0002 : 0.004)) * seconds));
    }

    private void obstacles() {
        double vent = troubles.of(Cause.VENT_RESTRICTED);
        double intake = troubles.of(Cause.INTAKE_RESTRICTED);
        double plugged = troubles.of(Cause.HEAT_EXCHANGER_PLUGGED);
        double gurgle = 1 + 0.35 * drainBubbles.value() * water;
        net.ventLoss = ventLoss * (1 + 22 * vent * vent) + slug.loss();
        net.secondaryLoss = secondaryLoss * (1 + 6 * plugged * plugged) * (1 + 9 * water * water * gurgle);
        net.drainLeakLoss = leak(troubles.of(Cause.TRAP_DRY), 4.0e-3 * (1 + 0.45 * trapBubbles.value()), 200);
        net.breachLoss = leak(troubles.of(Cause.HEAT_EXCHANGER_BREACHED), 7.0e-3, 250);
        net.primaryLoss = Restriction.ofDesign(60, DESIGN_MASS, 0.46);
        net.intakeLoss =
                Restriction.ofDesign(house.flue().pipes() == 2 ? 20 : 2, DESIGN_MASS, 1.2) * (1 + 25 * intake * intake);
        net.ventLoss += ventLoss * 5 * water * water * gurgle;
    }

    /** Loss coefficient of a leak that lets {@code mass} kg/s through at {@code dp} Pa when fully there. */
    private static double leak(double severity, double mass, double dp) {
        double m = severity * mass;
        return m <= 1e-9 ? Double.POSITIVE_INFINITY : Restriction.ofDesign(dp, m, 1.2);
    }

    private void tubes(double seconds) {
        double port = house.flue().switchAtCollector() ? net.collector : net.inducer;
        double leak = Math.max(troubles.of(Cause.TUBE_LEAKING), troubles.of(Cause.DIAPHRAGM_PINHOLE));
        tube.step(port, Tube.conductance(troubles.of(Cause.TUBE_BLOCKED)), Tube.leak(leak), seconds);
        inducerTap.step(net.inducer, Tube.CLEAN_SECONDS, seconds);
        collectorTap.step(net.collector, Tube.CLEAN_SECONDS, seconds);
        ventTap.step(net.ventBase, Tube.CLEAN_SECONDS, seconds);
        burnerBoxTap.step(net.burnerBox, Tube.CLEAN_SECONDS, seconds);
    }

    private void switchAndFlame() {
        double make = house.rating().makePascals() + 110 * troubles.of(Cause.SWITCH_DRIFTED);
        pressureSwitch.step(
                now,
                TICK_SECONDS,
                suction(),
                make,
                make - house.rating().differentialPascals(),
                motor.speed() > 0.3,
                troubles.of(Cause.CONTACT_WIRING),
                troubles.of(Cause.SWITCH_FAULTY));
        double current = gas.flame() * troubles.flameSense() * (3.2 + 0.15 * flameNoise.gaussian());
        flameMicroamperes = Math.max(0, current);
    }

    /** Suction across the switch's diaphragm, Pa: against the room, or against the burner box with two ports. */
    double suction() {
        return (house.rating().againstBurnerBox() ? burnerBoxTap.value() : 0) - tube.value();
    }

    /** What a perfect instrument at the tap would show, in the base unit of the tap's quantity. */
    double at(Tap tap) {
        double b = blowerSpeed.value() * blowerSpeed.value();
        return switch (tap) {
            case DRAFT_SWITCH -> tube.value();
            case DRAFT_INDUCER -> inducerTap.value();
            case DRAFT_COLLECTOR -> collectorTap.value();
            case DRAFT_BURNER_BOX -> burnerBoxTap.value();
            case DRAFT_VENT -> ventTap.value();
            case GAS_INLET -> gas.inlet();
            case GAS_MANIFOLD -> gas.manifold();
            case STATIC_RETURN -> -55 * b;
            case STATIC_AFTER_FILTER -> -85 * b;
            case STATIC_SUPPLY -> 70 * b;
            case STATIC_BEFORE_COIL -> 68 * b;
            case STATIC_AFTER_COIL -> 35 * b;
            case CONTACT_SWITCH -> pressureSwitch.closed() ? 1 : 0;
            case CONTACT_CALL -> thermostat.calling() ? 1 : 0;
            case CONTACT_GAS_VALVE -> control.gasValve() ? 1 : 0;
            case CONTACT_INDUCER -> control.inducer() ? 1 : 0;
            case CONTACT_BLOWER -> control.blower(now) ? 1 : 0;
            case FLAME_CURRENT -> flameMicroamperes;
        };
    }
}
