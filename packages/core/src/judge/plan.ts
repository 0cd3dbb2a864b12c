import { inverse, Matrix } from "ml-matrix";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { withDoubtOfPriors } from "../fit/doubtOfPriors.ts";
import type { FitContext, RecordingChannels } from "../fit/fitContext.ts";
import { priorPrecision } from "../fit/priorCovariance.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { metresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import {
  expectedInformation,
  type PlacedRows,
  type StretchSlopes,
  stretchSlopes,
} from "./expectedInformation.ts";
import { hypotheticRows } from "./hypotheticRows.ts";
import { doubtsOf, type Measure, measureSd, measuresOf } from "./planMeasures.ts";
import {
  EXERCISES,
  type Exercise,
  type ExerciseName,
  SETTING_SAILS,
  secondsOfExercises,
} from "./plannedLeg.ts";

/** What a plan starts from. */
export interface PlanRequest {
  readonly fit: SolvedBoatFit;
  readonly channels: RecordingChannels;
  readonly context: FitContext;
  readonly seconds: Seconds;
  /** Speed of the day's wind, m/s, as far as it is known. */
  readonly windSpeed?: number;
  readonly windDirection?: Radians;
  /** Under sail only, or under power too (the default). */
  readonly underPower?: boolean;
}

/** What is known before, and would be known after. */
export interface BeforeAndAfter {
  readonly before: number;
  readonly after: number;
}

/** What to sail next, and what it would tell. */
export interface Plan {
  /** In the order in which they are done. */
  readonly exercises: readonly Exercise[];
  readonly seconds: Seconds;
  /** Standard deviations of the parameters, SI and radians, in the order of the fit's. */
  readonly parameters: readonly BeforeAndAfter[];
  /** The part of what matters that each parameter's doubt makes up before: 1 is as much as matters. */
  readonly doubts: readonly number[];
  /** The parameter with the largest such part of those that the time could tell of; undefined where it could of none. */
  readonly worst: ParameterName | undefined;
  /** Standard deviations of what matters, the worst of each kind; rad or ln of a speed ratio. */
  readonly measures: readonly ({ readonly kind: Measure["kind"] } & BeforeAndAfter)[];
}

/** Wind where nobody says which. */
const USUAL_WIND = metresPerSecond(12);
const ANY_DIRECTION: readonly Radians[] = [20, 110, 200, 290].map((direction) => radians(direction));

/** Large enough that the worst weigh most, small enough that the others count too. */
const POWER_OF_NORM = 4;

/** A parameter can be learnt where one exercise alone, all the time, would leave less than half of its variance. */
const LEARNABLE = Math.SQRT1_2;

/** The worst of the parameters counts so many times. */
const WORST_FIRST = 2.5;

/** Rounds in which exercises are exchanged; more are not needed to come to rest. */
const MOST_ROUNDS = 6;

/** A change must lower what is left by this share. */
const LEAST_GAIN = 1e-3;

class Planner {
  readonly #request: PlanRequest;
  readonly #stretches: readonly ReadonlyMap<Exercise, StretchSlopes>[];
  readonly #measures: readonly Measure[];
  /** Covariance before, in prior scales, its inverse, and each parameter's part of what matters. */
  readonly #before: Matrix;
  readonly #precision: Matrix;
  readonly #doubts: readonly number[];
  readonly #learnable: readonly number[];

  constructor(request: PlanRequest) {
    const { fit, channels, context, windSpeed = USUAL_WIND, windDirection, underPower = true } = request;
    const directions = windDirection === undefined ? ANY_DIRECTION : [windDirection];
    const candidates = EXERCISES.filter((exercise) => underPower || !exercise.underPower);
    this.#request = request;
    this.#stretches = directions.map(
      (direction) =>
        new Map(
          candidates.map((exercise) => {
            const wind = { direction, speed: windSpeed };
            const rows = hypotheticRows(exercise.legs, wind, fit.settings, channels);
            return [exercise, stretchSlopes(fit, rows, channels, context)];
          }),
        ),
    );
    this.#measures = measuresOf(fit, channels);
    const size = fit.parameters.length;
    const scaled = Matrix.from1DArray(size, size, fit.covariance);
    scaled.apply((row, column) => {
      const scale = fit.parameters[row]!.priorSd * fit.parameters[column]!.priorSd;
      scaled.set(row, column, scaled.get(row, column) / scale);
    });
    this.#before = scaled;
    this.#precision = inverse(scaled);
    this.#doubts = doubtsOf(this.#measures, scaled);
    this.#learnable = this.#learnableIn(request.seconds);
  }

  get candidates(): readonly Exercise[] {
    return [...this.#stretches[0]!.keys()];
  }

  /** Covariance once exercises are done, in prior scales: information averaged over the directions that the wind may have. */
  covariance(exercises: readonly Exercise[]): Matrix {
    const { fit } = this.#request;
    const size = fit.parameters.length;
    const sum = Matrix.zeros(size, size);
    for (const stretches of this.#stretches) {
      let start = 0;
      const placed = exercises.map((exercise, index): PlacedRows => {
        if (index > 0 && exercises[index - 1]!.underPower !== exercise.underPower) start += SETTING_SAILS;
        const at = { stretch: stretches.get(exercise)!, start };
        start += secondsOfExercises([exercise]);
        return at;
      });
      sum.add(expectedInformation(placed, fit));
    }
    return inverse(Matrix.add(this.#precision, sum.mul(1 / this.#stretches.length)));
  }

  /** M84. How much is left to learn: the norm of all that matters, the worst weighing most. */
  left(exercises: readonly Exercise[]): number {
    const covariance = this.covariance(exercises);
    const measured = this.#measures.map((measure) => measureSd(measure, covariance) / measure.matters);
    const worst = worstOf(this.#learnable, this.#doubts);
    const single = this.#learnable.map(
      (index) => (index === worst ? WORST_FIRST : 1) * this.#doubts[index]! * this.#kept(index, covariance),
    );
    const sum = [...measured, ...single].reduce((total, share) => total + share ** POWER_OF_NORM, 0);
    return sum ** (1 / POWER_OF_NORM);
  }

  /** What is left of a parameter's standard deviation. */
  #kept(index: number, covariance: Matrix): number {
    return Math.sqrt(covariance.get(index, index) / this.#before.get(index, index));
  }

  /** Parameters of which the time could tell something, were it spent on one exercise alone. */
  #learnableIn(seconds: Seconds): readonly number[] {
    const filled = this.candidates.map((one) =>
      this.covariance(Array.from({ length: Math.floor(seconds / secondsOfExercises([one])) }, () => one)),
    );
    return this.#doubts.flatMap((_, index) =>
      filled.some((covariance) => this.#kept(index, covariance) < LEARNABLE) ? [index] : [],
    );
  }

  /** M184. What intervals are made from once exercises are done, in prior scales. */
  #errors(exercises: readonly Exercise[]): Matrix {
    const { fit } = this.#request;
    const scales = fit.parameters.map(({ priorSd }) => priorSd);
    return withDoubtOfPriors(this.covariance(exercises), priorPrecision(fit, scales));
  }

  report(exercises: readonly Exercise[]): Plan {
    const { fit } = this.#request;
    const [before, after] = [this.#errors([]), this.#errors(exercises)];
    const kinds = [...new Set(this.#measures.map(({ kind }) => kind))];
    const worst = (kind: Measure["kind"], covariance: Matrix): number =>
      Math.max(...this.#measures.filter((one) => one.kind === kind).map((one) => measureSd(one, covariance)));
    return {
      exercises,
      seconds: secondsOfExercises(exercises),
      parameters: fit.parameters.map(({ priorSd }, index) => ({
        before: priorSd * Math.sqrt(before.get(index, index)),
        after: priorSd * Math.sqrt(after.get(index, index)),
      })),
      doubts: this.#doubts,
      worst: fit.parameters[worstOf(this.#learnable, this.#doubts)]?.name,
      measures: kinds.map((kind) => ({ kind, before: worst(kind, before), after: worst(kind, after) })),
    };
  }
}

/** The place with the largest doubt among some; −1 among none. */
const worstOf = (places: readonly number[], doubts: readonly number[]): number =>
  places.reduce((worst, place) => (worst < 0 || doubts[place]! > doubts[worst]! ? place : worst), -1);

/** Under power first, as she leaves harbour; what is done more than once stands together no more than it was chosen so. */
const inOrder = (exercises: readonly Exercise[]): readonly Exercise[] => [
  ...exercises.filter(({ underPower }) => underPower),
  ...exercises.filter(({ underPower }) => !underPower),
];

/** What is done under power is not done more often than this, whatever it would tell. */
const MOST_UNDER_POWER = 2;

const isTedious = (exercises: readonly Exercise[]): boolean =>
  exercises.some(
    (one) => one.underPower && exercises.filter((other) => other === one).length > MOST_UNDER_POWER,
  );

/** The best of several sets of exercises by what they leave to learn, after a penalty of time. */
function bestOf(
  planner: Planner,
  options: readonly (readonly Exercise[])[],
  worth: (left: number, seconds: Seconds) => number,
): Chosen | undefined {
  let best: (Chosen & { readonly worth: number }) | undefined;
  for (const exercises of options) {
    const left = planner.left(exercises);
    const value = worth(left, secondsOfExercises(exercises));
    if (best === undefined || value > best.worth) best = { exercises, left, worth: value };
  }
  return best;
}

interface Chosen {
  readonly exercises: readonly Exercise[];
  readonly left: number;
}

/** Exercises one after another by what each lowers ln of what is left a minute, until nothing fits or helps. */
function grown(planner: Planner, start: readonly Exercise[], fits: Fits): Chosen {
  let chosen: Chosen = { exercises: start, left: planner.left(start) };
  for (;;) {
    const options = planner.candidates.map((one) => inOrder([...chosen.exercises, one])).filter(fits);
    const [now, took] = [chosen.left, secondsOfExercises(chosen.exercises)];
    const best = bestOf(planner, options, (after, seconds) => Math.log(now / after) / (seconds - took));
    if (best === undefined || best.left > now * (1 - LEAST_GAIN)) return chosen;
    chosen = best;
  }
}

/** Exercises exchanged one for another as long as that leaves less. */
function exchanged(planner: Planner, start: Chosen, fits: Fits): Chosen {
  let chosen = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const options = chosen.exercises
      .flatMap((_, at) => planner.candidates.map((one) => inOrder(chosen.exercises.with(at, one))))
      .filter(fits);
    const best = bestOf(planner, options, (after) => -after);
    if (best === undefined || best.left > chosen.left * (1 - LEAST_GAIN)) break;
    chosen = best;
  }
  return chosen;
}

type Fits = (exercises: readonly Exercise[]) => boolean;

/** What to begin with besides nothing: one exercise under power alone seldom pays for setting the sails after it. */
const STARTS: readonly (readonly ExerciseName[])[] = [[], ["circles"], ["circles", "motor along the wind"]];

/**
 * M84. What to sail next: exercises chosen one after another by what each leaves to learn a minute, from several starts, then exchanged as
 * long as that leaves less.
 *
 * @param request `seconds` are what there is time for
 * @returns a plan, empty where there is no time for any exercise
 * @throws RangeError where the time is not positive
 * @example
 * const request = { fit, channels: channelsChosen(calibration.recording.chosen), leewayLawHolds: true, seconds: 600 };
 */
export function planOf(request: PlanRequest): Plan {
  const { seconds, underPower = true } = request;
  if (!(seconds > 0)) throw new RangeError(`planOf: seconds must be positive, got ${seconds}`);
  const planner = new Planner(request);
  const fits: Fits = (exercises) => secondsOfExercises(exercises) <= seconds && !isTedious(exercises);
  const starts = (underPower ? STARTS : [[]])
    .map((names) => EXERCISES.filter(({ name }) => names.includes(name)))
    .filter(fits);
  const best = starts
    .map((start) => grown(planner, inOrder(start), fits))
    .reduce((one, other) => (other.left < one.left ? other : one));
  return planner.report(exchanged(planner, best, fits).exercises);
}
