import { wrapAngle } from "../../packages/core/src/angles.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { errorCovariance } from "../../packages/core/src/fit/doubtOfPriors.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { LAW_ERROR_NAMES } from "../../packages/core/src/fit/priors.ts";
import {
  INDEX_OF,
  LAW_INDEX_OF,
  lawErrorsOf,
  settingsOf,
} from "../../packages/core/src/fit/settingsVector.ts";
import { unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import { boatStateOf, unknownBoatState } from "../../packages/core/src/sensors/boatState.ts";
import { PARAMETER_NAMES, type ParameterName } from "../../packages/core/src/sensors/parameterNames.ts";
import type { Course } from "../../packages/core/src/simulate/drawCourse.ts";
import type { WindStrength } from "../../packages/core/src/simulate/drawLegScenario.ts";
import { radians } from "../../packages/core/src/units.ts";
import { boundOf, type KnownSail, quietEvidence } from "./legBound.ts";
import { AS_SAILED, DRAWN_WIDTH, knownSail, type LegClass } from "./legDraws.ts";

/** What came out for one number, with what the bound allows, and what it allows whoever goes by what is usual on legs. */
export interface ScoredNumber {
  readonly error: number;
  readonly sd: number;
  readonly bound: number;
  readonly usualBound: number;
  readonly informed: number;
}

export const SIDES = [
  "starboard, upwind",
  "port, upwind",
  "starboard, off the wind",
  "port, off the wind",
] as const;
export type Side = (typeof SIDES)[number];

export interface ScoredSail {
  readonly strength: WindStrength;
  readonly course: Course;
  readonly rows: number;
  readonly parameters: Readonly<Partial<Record<ParameterName, ScoredNumber>>>;
  /** Error of the corrected direction and the sd that the fit gives it. */
  readonly directions: Readonly<Partial<Record<Side, { readonly error: number; readonly sd: number }>>>;
  readonly wander: SolvedBoatFit["wander"];
}

/** Whether the fit moved a parameter: else it stands alone at its prior. */
function isFree({ covariance, parameters }: SolvedBoatFit, index: number): boolean {
  const size = parameters.length;
  return parameters.some((_, other) => other !== index && covariance[index * size + other] !== 0);
}

/** Directions of the wind over the water (over the ground without a wheel), row by row. */
function directionsAt(known: KnownSail, vector: Float64Array): Float64Array {
  const [settings, laws] = [settingsOf(vector, 1), lawErrorsOf(vector)];
  const { paddle } = known.channels;
  return Float64Array.from(quietEvidence(known), ({ nominal, circumstances }) => {
    const [awa, aws, stw, heading, heel, east, north] = nominal;
    const ahead = paddle ? stw! : Math.hypot(east!, north!);
    const readings = Object.assign(unknownBoatReadings(), {
      awa,
      aws,
      stw: ahead,
      heading,
      heel,
      east,
      north,
    });
    const state = boatStateOf(readings, circumstances, settings, unknownBoatState(), laws);
    return paddle
      ? Math.atan2(state.overWaterEast, state.overWaterNorth)
      : Math.atan2(state.overGroundEast, state.overGroundNorth);
  });
}

const UPWIND = radians(55);
const LEAST_ROWS = 4;
const SHARE_OF_SD = 0.1;

function scoredDirections(known: KnownSail, fit: SolvedBoatFit): ScoredSail["directions"] {
  const { truth, sail } = known;
  const found = truth.slice();
  fit.parameters.forEach(({ value }, index) => {
    if (isFree(fit, index)) found[index] = value;
  });
  const size = fit.parameters.length;
  const covariance = errorCovariance(fit);
  const errors = directionsAt(known, found);
  const right = directionsAt(known, truth);
  const moves = fit.parameters.map(({ sd }, index) => {
    if (!isFree(fit, index)) return undefined;
    const step = SHARE_OF_SD * sd;
    const [up, down] = [step, -step].map((by) => directionsAt(known, found.with(index, found[index]! + by)));
    return up!.map((value, row) => wrapAngle(value - down![row]!) / (2 * step));
  });
  return Object.fromEntries(
    SIDES.flatMap((side) => {
      const places = [...sail.rows.keys()].filter((row) => {
        const { kind, tack, mean } = sail.rows[row]!;
        const upwind = Math.abs(mean.awa) < UPWIND;
        return kind === "sailing" && side.startsWith(tack) && upwind === side.endsWith("upwind");
      });
      if (places.length < LEAST_ROWS) return [];
      const mean = (of: (row: number) => number): number =>
        places.reduce((sum, row) => sum + of(row), 0) / places.length;
      const gradient = moves.map((move) => (move === undefined ? 0 : mean((row) => move[row]!)));
      let variance = 0;
      for (let i = 0; i < size; i++)
        for (let j = 0; j < size; j++) variance += gradient[i]! * gradient[j]! * covariance[i * size + j]!;
      return [
        [side, { error: mean((row) => wrapAngle(errors[row]! - right[row]!)), sd: Math.sqrt(variance) }],
      ];
    }),
  );
}

/** The laws that a fit leaves free (M29): only with compass and GPS. */
const freeLaws = ({ compass, gps, paddle }: KnownSail["channels"]): readonly number[] =>
  LAW_ERROR_NAMES.filter(
    (name) => compass && gps && (paddle || (name !== "sidesMeet" && name !== "deficitFalling")),
  ).map((name) => LAW_INDEX_OF[name]);

/** M173. One sail of a class, fitted and scored; undefined where the fit was not solved. */
export function scoredSail(of: LegClass, number: number): ScoredSail | undefined {
  const known = knownSail(of, number);
  const fit = fitBoat(known.sail.rows, AS_SAILED);
  if (fit.status !== "solved") return undefined;
  const moved = PARAMETER_NAMES.map((name) => INDEX_OF[name]).filter((index) => isFree(fit, index));
  const free = [...moved, ...freeLaws(known.channels)];
  const bound = boundOf(known, free, DRAWN_WIDTH, AS_SAILED, "row by row");
  const usualBound = boundOf(known, free, DRAWN_WIDTH, AS_SAILED, "usual");
  const parameters = Object.fromEntries(
    moved.map((index, place) => {
      const { name, value, sd, informed } = fit.parameters[index]!;
      const bounds = { bound: bound[place]!, usualBound: usualBound[place]! };
      return [name, { error: value - known.truth[index]!, sd, ...bounds, informed }];
    }),
  );
  return {
    strength: known.strength,
    course: known.course,
    rows: known.sail.rows.length,
    parameters,
    directions: scoredDirections(known, fit),
    wander: fit.wander,
  };
}
