import { deviationTable, type FoundDeviation } from "../../fit/circleFromBearings.ts";
import type { LoggedCircle } from "../../fit/circleInLog.ts";
import type { CircleMisfit } from "../../judge/circleMisfit.ts";
import type { CompassParameters } from "../../sensors/parameters.ts";
import { degrees, knots, type Radians, radians } from "../../units.ts";
import { duration, plain, signed, threeFigures } from "../format.ts";

/** The coefficients, then the deviation table. Never throws. */
export function circleTable(found: FoundDeviation, step: 10 | 15): readonly (readonly string[])[] {
  const table = deviationTable(found, step).map(({ heading, deviation, half }) => [
    `${threeFigures(degrees(heading))}°`,
    `${signed(degrees(deviation), 1)}°`,
    `± ${plain(degrees(half), 1)}°`,
  ]);
  return [["compass", "add", "95 %"], ...table];
}

const ADD =
  "Add what the table says to the compass heading, east positive: magnetic heading = compass + deviation.";

const LEAVE = "Leave the compass as it is: what was found lies within its own doubt.";

const ONE_NUMBER =
  "A and an error of the variation are one number at one place; only a circle at a place with another variation tells them apart. The table's intervals are without that, which shifts all of it alike.";

const LETTERS = ["a", "b", "c", "d", "e"] as const;

const coefficients = ({ series, halves }: FoundDeviation): string =>
  LETTERS.map(
    (term) =>
      `${term.toUpperCase()} ${signed(degrees(series[term]), 1)}° ± ${plain(degrees(halves[term]), 1)}°`,
  ).join(", ");

/** Whether what was found differs from what stands in the compass by more than its doubt. */
const isBeyondDoubt = ({ series, halves }: FoundDeviation, active: CompassParameters): boolean =>
  LETTERS.some((term) => Math.abs(series[term] - active[term]) > halves[term]);

/** A compass or its sensor is seldom turned by more. Judgement. */
const MUCH_TURNED: Radians = radians(4);

/** What is to be said of an A that is large. @param variation that was taken off the true headings, NaN where none was */
function turnedWords({ series: { a } }: FoundDeviation, variation: Radians): readonly string[] {
  if (!(Math.abs(a) > MUCH_TURNED)) return [];
  const size = `A is large, ${signed(degrees(a), 1)}°`;
  const isTwice = Math.abs(a + 2 * variation) < Math.abs(a) / 2;
  return [
    isTwice
      ? `${size}, and some twice the variation the other way: see that east is positive and west negative, and that compass and true headings stand in their own columns.`
      : `${size}: the sensor or its lubber line is turned by as much, or what it was compared with is.`,
  ];
}

/** What the heeling error comes to. */
function heelingWords({ terms, series, halves }: FoundDeviation): readonly string[] {
  if (!terms.includes("heelingError")) return [];
  const { heelingError: value } = series;
  const size = `Heeling error: ${signed(value, 3)}° ± ${plain(halves.heelingError, 3)}° a degree of heel, heading north`;
  return [
    Math.abs(value) > halves.heelingError
      ? `${size}: at 20° of heel ${plain(Math.abs(20 * value), 1)}° and opposite on the tacks; a magnet below the compass takes it out, an instrument seldom can.`
      : `${size}, no more than its doubt.`,
  ];
}

/** What is told of a circle besides what it found. */
export interface CircleTold {
  readonly misfit: CircleMisfit;
  /** What stands in the compass. */
  readonly active: CompassParameters;
  /** What was taken off the true headings; NaN where the headings were magnetic. */
  readonly variation: Radians;
  /** The compass headings of which one is probably wrong. */
  readonly suspects: readonly Radians[];
}

/** What is to be made of a circle, in sentences. Never throws. */
export function circleWords(
  found: FoundDeviation,
  { misfit, active, variation, suspects }: CircleTold,
): readonly string[] {
  const advice = misfit.beyondSeries
    ? "Key in nothing yet: find what is wrong with the compass or the bearings first."
    : isBeyondDoubt(found, active)
      ? ADD
      : LEAVE;
  const beyond = misfit.beyondSeries
    ? [
        `The headings depart from any curve of A to E by up to ${plain(degrees(misfit.largest), 1)}°, more than chance: ${
          suspects.length === 0
            ? "a compass that tilts, sticks or stands near moving iron, a wrong bearing, or a reading noted wrongly"
            : `without the one on ${suspects.map((heading) => `${threeFigures(degrees(heading))}°`).join(" or ")} the others agree far better, so look at that first; else a compass that sticks, or iron that moved`
        }.`,
      ]
    : [];
  const large = misfit.tooLarge
    ? [
        "The deviation is above 20°, where five coefficients no longer describe it: have the compass adjusted, then circle again.",
      ]
    : [];
  const spare =
    found.spare === 0
      ? ["Five headings and five coefficients: nothing checks this curve. Eight headings would."]
      : [];
  return [
    advice,
    `Coefficients: ${coefficients(found)}.`,
    ...beyond,
    ...large,
    ...(misfit.beyondSeries ? [] : turnedWords(found, variation)),
    ...heelingWords(found),
    ...spare,
    ONE_NUMBER,
  ];
}

/** What the rows of a log may scatter beyond what is usual before the answer is not to be used. Judgement. */
const MUCH_SCATTER = 2.5;

/** A mean rate of turn at which the compass's lag is in A by some half a degree and more. */
const ONE_WAY: Radians = radians(0.7);

/** What is to be made of a log of circles, in sentences. Never throws. */
export function loggedCircleWords(found: LoggedCircle, active: CompassParameters): readonly string[] {
  const isOdd = found.scatter > MUCH_SCATTER;
  const advice = isOdd
    ? "Key in nothing yet: motions through the water and over the ground do not go together."
    : isBeyondDoubt(found, active)
      ? ADD
      : LEAVE;
  const odd = isOdd
    ? [
        `They scatter ${plain(found.scatter, 1)} times as much as is usual under power: leave out what was sailed, what was in waves, or where the current changed.`,
      ]
    : [];
  const oneWay =
    Math.abs(found.turning) > ONE_WAY
      ? [
          "She turned to one side more than to the other, and what the compass lags behind is then in A: turn as often to the other side.",
        ]
      : [];
  const heeled =
    found.heeled > 0
      ? [`${duration(found.heeled)} in which she heeled by more than 6° were left out as under sail.`]
      : [];
  const sailed =
    found.sailed > 0
      ? [
          `${duration(found.sailed)} were left out as under sail: in no circle, and nothing in the quarter of an hour about them that a boat does under power only.`,
        ]
      : [];
  return [
    advice,
    ...odd,
    `Coefficients: ${coefficients(found)}.`,
    ...oneWay,
    ...heeled,
    ...sailed,
    ONE_NUMBER,
    `From ${duration(found.seconds)} under way, against GPS, with a current of ${plain(knots(found.current), 1)} kn taken out. Give a log of motoring alone: under sail she makes leeway, which is no current.`,
  ];
}

/** Marks of the curve's drawing: as far as this from 0 to one side. */
const MARKS = 30;

/**
 * The deviation curve with its 95 % interval, a line each 15° of heading, west to the left. Never throws.
 */
export function circleCurve(found: FoundDeviation): readonly string[] {
  const table = deviationTable(found, 15);
  const most = Math.max(...table.map(({ deviation, half }) => Math.abs(deviation) + half));
  const step = [0.1, 0.2, 0.3, 0.5, 1, 2, 5].find((degree) => degrees(most) <= degree * MARKS) ?? 10;
  const place = (angle: Radians): number =>
    MARKS + Math.max(-MARKS, Math.min(MARKS, Math.round(degrees(angle) / step)));
  const lines = table.map(({ heading, deviation, half }) => {
    const line = Array<string>(2 * MARKS + 1).fill(" ");
    for (let at = place(deviation - half); at <= place(deviation + half); at++) line[at] = "-";
    line[MARKS] = "|";
    line[place(deviation)] = "o";
    return `${threeFigures(degrees(heading))}°  ${line.join("").trimEnd()}`;
  });
  const scale = `${" ".repeat(6)}${`west ${plain(MARKS * step, 0)}°`.padEnd(MARKS)}0${`east ${plain(MARKS * step, 0)}°`.padStart(MARKS)}`;
  return [scale, ...lines];
}
