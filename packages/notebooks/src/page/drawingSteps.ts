import type { Json, JsonObject } from "@bothtacks/core/page";
import type { Figure } from "../contract.ts";

/** Points that one step adds at most, unless a single trace has more: they take plotly some 10 ms. */
const POINTS_AT_ONCE = 200;

const lengthOf = (value: Json): number => (Array.isArray(value) ? value.length : 0);

/** The points of a trace, whatever its coordinates are called. */
const pointsOf = (trace: JsonObject): number => Math.max(0, ...Object.values(trace).map(lengthOf));

/** Where the traces are to be parted: no part has more points than are drawn at once. */
function partings(traces: readonly JsonObject[]): readonly number[] {
  const found: number[] = [];
  let points = 0;
  traces.forEach((trace, index) => {
    const more = pointsOf(trace);
    if (points > 0 && points + more > POINTS_AT_ONCE) {
      found.push(index);
      points = 0;
    }
    points += more;
  });
  return found;
}

/**
 * How many of a figure's traces stand there after each step of drawing it, the last time all. Plotly draws a figure in one go,
 * in which the page does not answer. What comes in pieces begins with its axes alone.
 *
 * @returns at least one step. Never throws.
 */
export function drawingSteps({ traces }: Pick<Figure, "traces">): readonly number[] {
  const parted = partings(traces);
  return [...(parted.length > 0 ? [0] : []), ...parted, traces.length];
}
