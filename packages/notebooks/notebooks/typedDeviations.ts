import { radians, type SeenDeviation } from "@bothtacks/core";

/** A circle as someone typed it. */
export interface TypedDeviations {
  readonly seen: readonly SeenDeviation[];
  /** Whether each heading has a heel. */
  readonly hasHeels: boolean;
}

const POINTS: Readonly<Record<string, number>> = {
  N: 0,
  NE: 45,
  E: 90,
  SE: 135,
  S: 180,
  SW: 225,
  W: 270,
  NW: 315,
};

/** Degrees: "12.5", "−3,1", "5.5 W" written "5.5W". */
const DEGREES = /^([+\-−]?\d+(?:[.,]\d+)?)°?([EW])?$/;

function degreesOf(text: string, line: number): number {
  const [, digits, side] = DEGREES.exec(text) ?? [];
  if (digits === undefined) throw new RangeError(`Line ${line}: "${text}" is no number of degrees.`);
  return (side === "W" ? -1 : 1) * Number(digits.replace(",", ".").replace("−", "-"));
}

/**
 * Deviations from lines "heading deviation heel": degrees or the eight points; east positive, or with E or W behind; heel to
 * starboard positive, on all lines or on none.
 *
 * @throws RangeError that names the line and what is wrong with it
 */
export function typedDeviations(text: string): TypedDeviations {
  const seen: SeenDeviation[] = [];
  text.split("\n").forEach((written, index) => {
    const words = written.trim().split(/[\s;]+/);
    if (words.length === 1 && words[0] === "") return;
    const [on = "", off, heel] = words;
    if (off === undefined || words.length > 3)
      throw new RangeError(`Line ${index + 1}: needs a heading and a deviation, and may have the heel.`);
    const heading = radians(POINTS[on] ?? degreesOf(on, index + 1));
    const one = { heading, deviation: radians(degreesOf(off, index + 1)) };
    seen.push(heel === undefined ? one : { ...one, heel: radians(degreesOf(heel, index + 1)) });
  });
  const heeled = seen.filter(({ heel }) => heel !== undefined).length;
  if (heeled > 0 && heeled < seen.length)
    throw new RangeError("The heel must stand on all lines or on none.");
  return { seen, hasHeels: heeled > 0 };
}
