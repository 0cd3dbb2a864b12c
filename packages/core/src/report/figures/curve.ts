import { degrees } from "../../units.ts";
import type { Estimate } from "../estimate.ts";
import { HALF_WIDTH_95, LEARNT } from "../format.ts";
import { type JsonObject, points } from "./figure.ts";

/** A curve of estimates in degrees over an axis in degrees. */
export interface Curve {
  readonly name: string;
  readonly along: readonly number[];
  readonly estimates: readonly Estimate[];
  readonly color: string;
  readonly dash: "solid" | "dash" | "dot";
  readonly withBand: boolean;
}

/** From where to where (exclusive) the estimates were learnt without a break. */
function stretches(estimates: readonly Estimate[]): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  estimates.forEach(({ informed }, index) => {
    const last = found.at(-1);
    if (!(informed >= LEARNT)) return;
    if (last && last[1] === index) last[1] = index + 1;
    else found.push([index, index + 1]);
  });
  return found;
}

/** The curve in degrees, broken where it was not learnt, with its 95 % band below it. Never throws. */
export function curveTraces({ name, along, estimates, color, dash, withBand }: Curve): readonly JsonObject[] {
  const shown = (offset: number) =>
    points(
      estimates.map(({ value, sd, informed }) =>
        informed >= LEARNT ? degrees(value + offset * HALF_WIDTH_95 * sd) : Number.NaN,
      ),
    );
  const edge = ([from, to]: readonly [number, number], offset: number, more: JsonObject): JsonObject => ({
    type: "scatter",
    mode: "lines",
    x: along.slice(from, to),
    y: shown(offset).slice(from, to),
    line: { width: 0 },
    showlegend: false,
    hoverinfo: "skip",
    ...more,
  });
  // a fill runs across gaps, so each stretch has its own
  const band = stretches(estimates).flatMap((stretch) => [
    edge(stretch, -1, {}),
    edge(stretch, 1, { fill: "tonexty", fillcolor: "--band" }),
  ]);
  return [
    ...(withBand ? band : []),
    {
      type: "scatter",
      mode: "lines",
      name,
      x: along,
      y: shown(0),
      line: { color, width: 2.5, dash },
      hovertemplate: `%{x}°: %{y:+.1f}°<extra>${name}</extra>`,
    },
  ];
}

/** Small ticks along the bottom where samples lie. Never throws. */
export const rugTrace = (
  values: readonly number[],
  bottom: number,
  name: string,
  color: string,
): JsonObject => ({
  type: "scatter",
  mode: "markers",
  name,
  x: points(values),
  y: values.map(() => bottom),
  hoverinfo: "skip",
  marker: { symbol: "line-ns", size: 9, line: { width: 1, color }, opacity: 0.5, color },
});
