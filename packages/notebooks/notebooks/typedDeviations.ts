import { radians, type SeenDeviation } from "@bothtacks/core";
import { BadLine, linesOf, orProblem } from "./typedTable.ts";

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
const DEGREES = /^([+\-−]?\d+(?:[.,]\d+)?)°?([EW])?$/i;

/** A side that stands apart from its number: "5.5 W" is "5.5W". */
const withSides = (text: string): string => text.replace(/(\d°?)[ \t]+([EW])(?=\s|;|$)/gi, "$1$2");

/** No deviation is larger: what is, is a heading in the wrong column, °. */
const LARGEST = 90;

function degreesOf(text: string, line: number): number {
  const [, digits, side] = DEGREES.exec(text) ?? [];
  if (digits === undefined) throw new BadLine(`Line ${line}: "${text}" is no number of degrees.`);
  return (side?.toUpperCase() === "W" ? -1 : 1) * Number(digits.replace(",", ".").replace("−", "-"));
}

function readDeviations(text: string): TypedDeviations {
  const seen = linesOf(withSides(text)).map(({ line, words }): SeenDeviation => {
    const [on = "", off, heel] = words;
    if (off === undefined || words.length > 3)
      throw new BadLine(`Line ${line}: needs a heading and a deviation, and may have the heel.`);
    const degreesOn = POINTS[on.toUpperCase()] ?? degreesOf(on, line);
    if (degreesOn < 0 || degreesOn > 360)
      throw new BadLine(`Line ${line}: "${on}" is no heading from 0° to 360°.`);
    const heading = radians(degreesOn);
    const degreesOff = degreesOf(off, line);
    if (Math.abs(degreesOff) > LARGEST)
      throw new BadLine(
        `Line ${line}: "${off}" is too large for a deviation, which is what to add to the compass.`,
      );
    const one = { heading, deviation: radians(degreesOff) };
    return heel === undefined ? one : { ...one, heel: radians(degreesOf(heel, line)) };
  });
  const heeled = seen.filter(({ heel }) => heel !== undefined).length;
  if (heeled > 0 && heeled < seen.length) throw new BadLine("The heel must stand on all lines or on none.");
  return { seen, hasHeels: heeled > 0 };
}

/**
 * Deviations from lines "heading deviation heel": degrees or the eight points; east positive, or with E or W behind; heel to
 * starboard positive, on all lines or on none. No deviations, and what is wrong with which line, where one cannot be
 * read. Never throws.
 */
export const typedDeviations = (text: string): TypedDeviations & { readonly problem: string } =>
  orProblem(() => readDeviations(text), { seen: [], hasHeels: false });
