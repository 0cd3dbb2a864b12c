import { directionOf } from "../physics/vectors.ts";
import type { QuantityName } from "../recording/readings.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { degrees, radians } from "../units.ts";
import { counted } from "./format.ts";
import type { RecordedSailing } from "./recordingText.ts";

/** What a recording can tell and what it cannot, before any fit: full sentences. */
export interface Evidence {
  readonly can: readonly string[];
  readonly cannot: readonly string[];
}

/** Close-hauled to close-reaching: apparent wind within this of the bow. */
const UPWIND = radians(60);
const OFF_THE_WIND = radians(90);

/** Headings are sorted into eight sectors, as a deviation card has them. */
const SECTORS = 8;
/** Of five coefficients of deviation each needs its own headings: six sectors of eight leave no half of the rose open. */
const SECTORS_FOR_DEVIATION = 6;

/** Fewer tacks than this say next to nothing about a wind that wanders by 5° from one to the next: 5° / √4 is 2.5°. */
const FEWEST_TACKS = 4;

interface Facts {
  readonly has: (...quantities: readonly QuantityName[]) => boolean;
  readonly tacks: number;
  readonly sectors: number;
  readonly reciprocal: boolean;
  readonly upwindOnBoth: boolean;
  readonly offTheWind: boolean;
  readonly motoring: boolean;
}

/** The sector of a row's heading; of its course over ground where there is no compass. */
function sectorOf({ mean }: LegRow): number {
  const heading = Number.isNaN(mean.heading) ? directionOf(mean.east, mean.north) : mean.heading;
  return Math.round((degrees(heading) / 360) * SECTORS) % SECTORS;
}

function factsOf({ recording, turns }: RecordedSailing, rows: readonly LegRow[]): Facts {
  const quantities = new Set(recording.chosen.map(({ source }) => source.quantity));
  const sectors = new Set(rows.map(sectorOf).filter((sector) => !Number.isNaN(sector)));
  const sailing = rows.filter(({ kind }) => kind === "sailing");
  const upwind = sailing.filter(({ mean }) => Math.abs(mean.awa) < UPWIND);
  return {
    has: (...names) => names.some((name) => quantities.has(name)),
    tacks: turns.filter(({ kind }) => kind === "tack").length,
    sectors: sectors.size,
    reciprocal: [...sectors].some((sector) => sectors.has((sector + SECTORS / 2) % SECTORS)),
    upwindOnBoth: new Set(upwind.map(({ tack }) => tack)).size === 2,
    offTheWind: sailing.some(({ mean }) => Math.abs(mean.awa) > OFF_THE_WIND),
    motoring: rows.some(({ kind }) => kind === "motoring"),
  };
}

/** What one correction asks of a recording: the first condition that fails says why it cannot be had. */
interface Question {
  readonly can: (facts: Facts) => string;
  readonly conditions: readonly (readonly [holds: (facts: Facts) => boolean, otherwise: string])[];
}

const hasWind = ({ has }: Facts): boolean => has("apparentWindAngle");
const hasCompass = ({ has }: Facts): boolean => has("headingMagnetic", "headingTrue");
const hasGps = ({ has }: Facts): boolean => has("speedOverGround");

const QUESTIONS: readonly Question[] = [
  {
    can: () => "Boat speed: motion over the ground on reciprocal headings tells the log from the current.",
    conditions: [
      [({ has }) => has("speedThroughWater"), "Boat speed: no speed through the water was recorded."],
      [hasGps, "Boat speed: without course and speed over ground there is nothing to compare it with."],
      [
        ({ reciprocal }) => reciprocal,
        "Boat speed: no two headings are opposite, so a current looks like an error of the log.",
      ],
    ],
  },
  {
    can: ({ sectors }) =>
      `Compass: alignment and deviation, from headings in ${sectors} of the eight sectors of the rose.`,
    conditions: [
      [hasCompass, "Compass: there is no heading from a compass in what was taken."],
      [hasGps, "Compass: without course over ground its alignment is invisible."],
      [
        ({ sectors }) => sectors >= SECTORS_FOR_DEVIATION,
        "Compass deviation: too few headings were steered; the alignment may still be found.",
      ],
    ],
  },
  {
    can: ({ tacks }) => `Wind angle: ${counted(tacks, "tack")} compare the two sides of the same wind.`,
    conditions: [
      [hasWind, "Wind angle: no apparent wind was recorded."],
      [({ upwindOnBoth }) => upwindOnBoth, "Wind angle: the boat was not close-hauled on both tacks."],
      [
        ({ tacks }) => tacks >= FEWEST_TACKS,
        "Wind angle: too few tacks for a wind that shifts by itself; the interval will be wide.",
      ],
    ],
  },
  {
    can: () =>
      "Masthead offset and wind speed: time under power with the sails down, where no sail bends the wind.",
    conditions: [
      [hasWind, "Masthead offset: no apparent wind was recorded."],
      [
        ({ motoring }) => motoring,
        "Masthead offset: no time under power with the sails down; under sail it hides behind the wind's own shear.",
      ],
    ],
  },
  {
    can: () => "Upwind against downwind: both were sailed, so that upwash and leeway can be told apart.",
    conditions: [
      [hasWind, "Upwash and leeway: no apparent wind was recorded."],
      [
        ({ offTheWind, upwindOnBoth }) => offTheWind && upwindOnBoth,
        "Upwash and leeway: only one point of sail, where they trade off against each other.",
      ],
    ],
  },
  {
    can: () => "Heel: a sensor was recorded; its zero and its sign can be checked against the wind.",
    conditions: [
      [({ has }) => has("heel"), "Heel: no sensor was recorded; heel will be modelled from the wind."],
    ],
  },
];

/** What is said of a recording that tells no time. */
const TIMELESS =
  "Anything: the log tells no time, and without times nothing can be set side by side. Record sentences that tell date and UTC (RMC, ZDA), or let the logger put the time before each line.";

/**
 * What a recording can calibrate and what not, judged by what it holds: instruments, headings, tacks, points of sail, time
 * under power. How well is known only after the fit.
 *
 * @param rows its summary rows
 * @returns full sentences. Never throws.
 */
export function evidenceIn(recorded: RecordedSailing, rows: readonly LegRow[]): Evidence {
  if (Number.isNaN(recorded.recording.start)) return { can: [], cannot: [TIMELESS] };
  const facts = factsOf(recorded, rows);
  const answers = QUESTIONS.map(({ can, conditions }) => {
    const failed = conditions.find(([holds]) => !holds(facts));
    return failed ? { cannot: failed[1] } : { can: can(facts) };
  });
  return {
    can: answers.flatMap(({ can }) => can ?? []),
    cannot: answers.flatMap(({ cannot }) => cannot ?? []),
  };
}
