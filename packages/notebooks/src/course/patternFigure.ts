import {
  along,
  axis,
  COLOUR,
  type JsonObject,
  layout,
  panelName,
  points,
  TACK_MARKS,
} from "@bothtacks/core/page";
import type { Figure } from "../contract.ts";
import type { ShownWind } from "./faults.ts";

/** Smallest half heights of the panels, so that a faultless boat looks so: °, kn. A little more than a whole number, whose words would stand in the corner. */
const LEAST = { turned: 6.3, stronger: 2.3 } as const;

const panel = (shown: readonly ShownWind[], what: "turned" | "stronger"): readonly JsonObject[] =>
  (["port", "starboard"] as const).map((tack) => {
    const own = shown.filter(({ sailed }) => sailed < 0 === (tack === "port"));
    return {
      type: "scatter",
      mode: "lines+markers",
      name: `${tack} tack`,
      legendgroup: tack,
      showlegend: what === "turned",
      x: own.map(({ sailed }) => sailed),
      y: points(own.map((one) => one[what])),
      xaxis: "x",
      yaxis: what === "turned" ? "y" : "y2",
      marker: TACK_MARKS[tack],
      line: { color: COLOUR[tack], width: 1.5, dash: tack === "port" ? "dash" : "solid" },
    };
  });

function upward(
  shown: readonly ShownWind[],
  what: "turned" | "stronger",
  domain: readonly number[],
): JsonObject {
  const most = Math.max(
    LEAST[what],
    ...shown.map((one) => 1.1 * Math.abs(one[what])).filter(Number.isFinite),
  );
  return axis({ domain, range: [-most, most], anchor: "x" });
}

/** What the instruments show around the wind: direction above, speed below; port tack on the left. Never throws. */
export const patternFigure = (shown: readonly ShownWind[], caption: string): Figure => ({
  label:
    "How far the wind shown is turned, and how much stronger it is, against the angle sailed on both tacks",
  caption,
  height: 460,
  traces: [...panel(shown, "turned"), ...panel(shown, "stronger")],
  layout: layout({
    margin: { l: 44, r: 18, t: 62, b: 56 },
    xaxis: along("angle to the wind, ° (port left, starboard right)", {
      range: [-185, 185],
      tickvals: [-180, -135, -90, -42, 0, 42, 90, 135, 180],
      ticktext: ["180", "135", "90", "42", "", "42", "90", "135", "180"],
      anchor: "y2",
    }),
    yaxis: upward(shown, "turned", [0.46, 1]),
    yaxis2: upward(shown, "stronger", [0, 0.3]),
    annotations: [
      panelName("", "direction shown: turned clockwise by, °"),
      panelName("", "speed shown: more than there is by, kn", "2"),
    ],
  }),
});
