import { randomNumbers } from "../packages/core/src/simulate/random.ts";

/** Whether the interval of each number of an exercise, by name, holds the truth; undefined where the exercise was refused. */
export type Held = Readonly<Record<string, boolean>> | undefined;

/** An exercise that can be drawn again and again. */
export interface ExerciseCase {
  readonly name: string;
  /** @param trial from 0 on */
  readonly draw: (trial: number) => Held;
  /** Draws of a simulated sail take a tenth of a second each, and are fewer. */
  readonly isSimulated?: true;
  /** What no series shows of itself, and is told as such: counted, not judged. */
  readonly isTold?: true;
}

export const { between, normal } = randomNumbers(139, 0);

/** A deviation about the one stated, as spread as four readings leave it (M121). */
export const about = (stated: number): number =>
  stated * Math.sqrt(4 / [0, 0, 0, 0].reduce((sum) => sum + normal() ** 2, 0));

/** A series that forgets with a time constant, of standard deviation 1. */
export function wandering(count: number, constant: number): readonly number[] {
  const keep = Math.exp(-1 / constant);
  let value = normal();
  return Array.from({ length: count }, () => {
    value = keep * value + Math.sqrt(1 - keep * keep) * normal();
    return value;
  });
}

/** Whether an interval holds the truth. */
export const holds = (found: number, truth: number, half: number): boolean => Math.abs(found - truth) < half;
