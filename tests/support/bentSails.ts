import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import type { FitContext } from "../../packages/core/src/fit/fitContext.ts";
import { LEGS_DIFFER } from "../../packages/core/src/fit/legsDiffer.ts";
import { vectorOf } from "../../packages/core/src/fit/settingsVector.ts";
import { tackGapDeviation } from "../../packages/core/src/judge/tackGap.ts";
import { PARAMETER_NAMES } from "../../packages/core/src/sensors/parameterNames.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import type { Scenario } from "../../packages/core/src/simulate/scenario.ts";
import { degrees, metresPerSecond, type Radians, radians } from "../../packages/core/src/units.ts";
import { requireSolved, scoreOf, seenSail } from "./scoredSails.ts";

/** Physics or habits that the fit does not know, put into a drawn scenario; the fit is told how she was steered. */
export interface Bend {
  readonly name: string;
  readonly steeredBy: FitContext["steeredBy"];
  readonly bent: (scenario: Scenario) => Scenario;
}

/** A compass that turns by so much in the course of the sail; and one that does so in its first half, and is set back. */
const DRIFT = radians(3);
const DRIFT_SET_BACK = radians(6);
const A_DAY = 86_400;

const withVane = (scenario: Scenario, vane: Partial<Scenario["faults"]["vane"]>): Scenario => ({
  ...scenario,
  faults: { ...scenario.faults, vane: { ...scenario.faults.vane, ...vane } },
});

const late = <Form extends { readonly lag: number; readonly damping: number }>(
  form: Form,
  lag: number,
  damping: number,
): Form => ({ ...form, lag, damping });

const secondsOf = ({ plan }: Scenario): number =>
  plan.reduce((sum, step) => sum + ("seconds" in step ? step.seconds : 0), 0);

/** How far a compass has turned in the mean of the sail. */
const meanDrift = (angle: Radians, share: number): Radians => (share * angle) / 2;

/** The compass turns evenly during the first share of the sail, about what is wrong with it in the mean of all. */
function withDrift(scenario: Scenario, angle: Radians, share: number): Scenario {
  const { faults } = scenario;
  const seconds = share * Math.min(A_DAY, secondsOf(scenario));
  const compass = { ...faults.compass, a: faults.compass.a + meanDrift(angle, share) };
  return {
    ...scenario,
    faults: { ...faults, compass },
    troubles: [{ kind: "drifting", sensor: "compass", angle, at: 0, seconds }],
  };
}

const steeredByDisplay = (scenario: Scenario): Scenario => ({
  ...scenario,
  helm: { ...scenario.helm, steersBy: "display" },
});

/** What the simulator is bent by, the first by nothing. */
export const BENDS: readonly Bend[] = [
  { name: "nothing", steeredBy: "sails", bent: (scenario) => scenario },
  {
    name: "upwash of another shape",
    steeredBy: "sails",
    bent: (scenario) =>
      withVane(scenario, {
        upwashAngle: radians(55),
        upwashNarrowness: 1,
        upwashSpeed: metresPerSecond(10),
        upwashWidth: 0.6,
      }),
  },
  {
    name: "wind bent by a shore",
    steeredBy: "sails",
    bent: (scenario) => ({ ...scenario, wind: { ...scenario.wind, bend: radians(6) } }),
  },
  {
    name: "gusts with tails",
    steeredBy: "sails",
    bent: (scenario) => ({ ...scenario, wind: { ...scenario.wind, gustTails: 0.2 } }),
  },
  {
    name: "lags",
    steeredBy: "sails",
    bent: (scenario) => ({
      ...scenario,
      log: {
        ...scenario.log,
        wind: late(scenario.log.wind, 3, 6),
        paddle: late(scenario.log.paddle, 2, 8),
      },
    }),
  },
  {
    name: "a compass that drifts",
    steeredBy: "sails",
    bent: (scenario) => withDrift(scenario, DRIFT, 1),
  },
  {
    name: "a compass that drifts and is set back",
    steeredBy: "sails",
    bent: (scenario) => withDrift(scenario, DRIFT_SET_BACK, 1 / 2),
  },
  { name: "steered by the display, nobody says so", steeredBy: "unknown", bent: steeredByDisplay },
  { name: "steered by the display, said to be by the sails", steeredBy: "sails", bent: steeredByDisplay },
  { name: "steered by the display, and said so", steeredBy: "display", bent: steeredByDisplay },
  {
    name: "a sea that skews the tacks",
    steeredBy: "sails",
    bent: (scenario) => ({
      ...scenario,
      sea: { ...scenario.sea, skew: 0.03 },
      helm: { ...scenario.helm, asymmetry: scenario.helm.asymmetry + radians(1.5) },
    }),
  },
];

/** One parameter of a fit against what undoes the true fault best. */
export interface ParameterError {
  readonly error: number;
  readonly sd: number;
  readonly informed: number;
}

export interface BentBoat {
  /** In the order of PARAMETER_NAMES, SI and radians. */
  readonly parameters: readonly ParameterError[];
  /** Of both tack gaps on another day: what is left, and its standard deviation (M62), degrees. */
  readonly gaps: readonly { readonly left: number; readonly expected: number }[];
  /** Whether the fit says that legs differ more than it expects (M180). */
  readonly legsDiffer: boolean;
}

/** What is known of the truth: faults as drawn, and as bent but for a compass's drift. */
const truthOf = (drawn: Scenario, bent: Scenario): Float64Array =>
  vectorOf(nearestSettings({ ...bent.faults, compass: drawn.faults.compass }));

const contextOf = ({ steeredBy }: Bend): FitContext => ({
  heelSign: "auto",
  steeredBy,
  leewayLawHolds: true,
});

const errorsOf = ({ parameters }: SolvedBoatFit, truth: Float64Array): readonly ParameterError[] =>
  PARAMETER_NAMES.map((_, at) => {
    const { value, sd, informed } = parameters[at]!;
    return { error: value - truth[at]!, sd, informed };
  });

/**
 * Draws a boat, bends her afternoon, fits it, and scores her on another day as it comes but for the bend of the boat herself.
 *
 * @throws Unsolved where the fit is not
 */
export function bentBoat(seed: number, bend: Bend): BentBoat {
  const drawn = drawScenario(seed);
  const scenario = bend.bent(drawn);
  const fit = requireSolved(fitBoat(seenSail(scenario).sailing.rows, contextOf(bend)));
  const other = seenSail(
    anotherDay({ ...drawn, faults: { ...drawn.faults, vane: scenario.faults.vane } }, seed + 1_000_000),
  );
  const { upwind, offTheWind } = scoreOf(other, fit.settings);
  const expected = (point: "upwind" | "off the wind"): number =>
    degrees(tackGapDeviation(fit, other.sailing.rows, point));
  return {
    parameters: errorsOf(fit, truthOf(drawn, scenario)),
    gaps: [
      { left: upwind, expected: expected("upwind") },
      { left: offTheWind, expected: expected("off the wind") },
    ],
    legsDiffer: fit.notes.includes(LEGS_DIFFER),
  };
}
