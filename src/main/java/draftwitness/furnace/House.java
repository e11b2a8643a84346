package draftwitness.furnace;

import java.util.List;

/**
 * All that describes one simulated house before the first second: ratings, place, habits, faults, instruments.
 *
 * @param title name of the invented house
 * @param place where it stands
 * @param flue how the furnace breathes
 * @param rating the pressure switch's rating, as on its plate
 * @param gas gas pressures, as on the plate
 * @param sequence times of the burner control
 * @param calls when the thermostat calls
 * @param faults what is wrong
 * @param instruments what measures it
 */
record House(
        String title,
        Place place,
        FlueSide flue,
        SwitchRating rating,
        GasRating gas,
        Sequence sequence,
        Calls calls,
        List<Fault> faults,
        List<InstrumentSpec> instruments) {

    House {
        faults = List.copyOf(faults);
        instruments = List.copyOf(instruments);
    }

    /**
     * Where the house stands.
     *
     * @param altitudeMetres above sea level
     * @param outdoorCelsius outdoor air
     * @param roomCelsius air around the furnace
     * @param windMetresPerSecond mean wind at the terminal
     * @param gustiness standard deviation of the gusts over the mean wind
     */
    record Place(
            double altitudeMetres,
            double outdoorCelsius,
            double roomCelsius,
            double windMetresPerSecond,
            double gustiness) {}

    /**
     * How the furnace breathes.
     *
     * @param pipes 2 for a sealed burner box with its own intake pipe, 1 for room air
     * @param switchAtCollector whether the switch's tube comes from the collector instead of the inducer housing
     * @param strength pressure of the inducer relative to the usual one
     * @param ventFactor resistance of the vent relative to the usual one
     * @param columnMetres length of a water column in the vent's low spot
     * @param stages 1 or 2 speeds and gas rates
     */
    record FlueSide(
            int pipes,
            boolean switchAtCollector,
            double strength,
            double ventFactor,
            double columnMetres,
            int stages) {}

    /**
     * Rating of the pressure switch, as magnitudes of suction in Pa.
     *
     * @param makePascals set point: the contact makes at this suction
     * @param differentialPascals it breaks this much below
     * @param tolerancePascals plus or minus on the set point
     * @param againstBurnerBox two ports, the other one at the burner box; else one port against the room
     */
    record SwitchRating(
            double makePascals, double differentialPascals, double tolerancePascals, boolean againstBurnerBox) {}

    /**
     * Gas pressures in Pa.
     *
     * @param propane propane instead of natural gas
     * @param manifoldPascals manifold at high fire
     * @param lowFirePascals manifold at low fire
     * @param inletPascals supply pressure without flow
     */
    record GasRating(boolean propane, double manifoldPascals, double lowFirePascals, double inletPascals) {}

    /**
     * Times of the burner control in seconds.
     *
     * @param attempts failed attempts in a row until lockout
     * @param switchFilter how long the switch must disagree before the control believes it
     */
    record Sequence(
            double prePurge,
            double igniterWarmUp,
            double trialForIgnition,
            double provingLimit,
            int attempts,
            double postPurge,
            double interPurge,
            double retryDelay,
            double lockout,
            double switchFilter,
            double flameFailure,
            double blowerOn,
            double blowerOff,
            double lowFire) {}

    /**
     * When the thermostat calls.
     *
     * @param first time of the first call, s
     * @param heat seconds at full fire after which a call is satisfied
     * @param pause seconds between calls
     * @param spread relative standard deviation of both from call to call
     */
    record Calls(double first, double heat, double pause, double spread) {}
}
