import type { Json, JsonObject } from "@bothtacks/core/page";
import type { Figure } from "../contract.ts";

/** Points that one step adds at most, unless a single trace has more: they take plotly some 25 ms. */
const POINTS_AT_ONCE = 700;

const lengthOf = (value: Json): number => (Array.isArray(value) ? value.length : 0);

/** The points of a trace, whatever its coordinates are called. */
const pointsOf = (trace: JsonObject): number => Math.max(0, ...Object.values(trace).map(lengthOf));

/**
 * How many of a figure's traces stand there after each step of drawing it, the last time all. Plotly draws a figure in one go,
 * in which the page does not answer.
 *
 * @param isFirst whether plotly has drawn nothing yet on this page: its own first drawing takes three times as long, so that
 *   the axes come before the first trace
 * @returns at least one step. Never throws.
 */
export function drawingSteps({ traces }: Pick<Figure, "traces">, isFirst: boolean): readonly number[] {
  const steps: number[] = isFirst ? [0] : [];
  let points = 0;
  traces.forEach((trace, index) => {
    const more = pointsOf(trace);
    if (points > 0 && points + more > POINTS_AT_ONCE) {
      steps.push(index);
      points = 0;
    }
    points += more;
  });
  return [...steps, traces.length];
}
