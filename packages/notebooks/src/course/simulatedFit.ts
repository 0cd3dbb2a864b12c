import {
  type BoatFaults,
  type ConfoundedGroup,
  confoundedIn,
  drawScenario,
  type FittedParameter,
  fitBoat,
  LagEstimator,
  LagShifter,
  nearestSettings,
  PARAMETER_NAMES,
  secondsOfSail,
  simulatedSail,
  summariseSailing,
  vectorOf,
} from "@bothtacks/core";

/** An invented afternoon: by its seed the same for everyone. */
export interface SimulatedAfternoon {
  readonly seed: number;
  readonly minutes: number;
  /** Racing under sail, or an outing to tune the instruments, which begins under power. */
  readonly outing: "racing" | "tuning";
  /** Her faults; drawn by the seed where they are left out. */
  readonly faults?: BoatFaults;
}

/** A setting as the fit found it, beside what would undo the faults best. */
export interface FoundSetting extends FittedParameter {
  readonly truth: number;
}

/** What the library's own fit makes of the afternoon. */
export type SimulatedFit =
  | {
      readonly status: "solved";
      readonly settings: readonly FoundSetting[];
      readonly confounded: readonly ConfoundedGroup[];
    }
  | { readonly status: "unsolved"; readonly reason: string };

/** Sails an invented afternoon second by second and fits the boat to it; some seconds of work. Never throws for a whole seed. */
export function fitOfAfternoon({ seed, minutes, outing, faults }: SimulatedAfternoon): SimulatedFit {
  const scenario = drawScenario(seed, {
    seconds: 60 * minutes,
    outing,
    motoring: outing === "tuning",
    ...(faults ? { faults } : {}),
  });
  const seconds = secondsOfSail(simulatedSail(scenario));
  const lags = new LagEstimator();
  for (const block of seconds) lags.push(block);
  const shifter = new LagShifter(lags.lags());
  const { rows } = summariseSailing([...seconds.map((block) => shifter.push(block)), shifter.finish()]);
  const fit = fitBoat(rows, { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true });
  if (fit.status === "unsolved") return { status: "unsolved", reason: fit.reason };
  const truth = vectorOf(nearestSettings(scenario.faults));
  return {
    status: "solved",
    settings: fit.parameters.map((one) => ({ ...one, truth: truth[PARAMETER_NAMES.indexOf(one.name)]! })),
    confounded: confoundedIn(fit),
  };
}
