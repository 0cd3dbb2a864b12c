import type { FindingName, SensorName } from "../calibration/findings.ts";
import type { SensorState, StandingFinding } from "../judge/sensorStates.ts";
import { CAUTIONS } from "./cautions.ts";
import { findingInterval, findingName, findingValue, inColumn } from "./findingText.ts";
import { capital, clock, listed } from "./format.ts";
import { columns, heading, list, paragraph } from "./textLines.ts";

/** "2031-06-14". */
const dayOf = (time: number): string => clock(time).slice(0, 10);

/** What settles a sensor, as the commands call it, with the time it takes. */
const SETTLED_BY: Readonly<Record<SensorName, string>> = {
  "boat speed": "runs over a measured distance (exercise runs, 40 minutes), or a log of sailing",
  compass: "a circle (exercise circle, 25 minutes), or a log of sailing with GPS",
  heel: "ten minutes level alongside (exercise dock), or a log of both tacks",
  pitch: "ten minutes level alongside (exercise dock)",
  leeway: "a log of sailing upwind on both tacks with GPS (calibrate)",
  "wind speed": "motoring in a calm (exercise calm, 20 minutes) or a second source (exercise anemometer)",
  "wind angle": "a log of motoring with the sails down, then of both tacks (calibrate)",
  depth: "a sounding (exercise depth, 10 minutes alongside)",
  "water temperature": "a thermometer (exercise temperature, 10 minutes)",
  position: "a known berth (exercise berth, an hour alongside)",
  clock: "any log with its own times and GPS (exercise clock)",
  "other channels": "known points (exercise channel)",
};

/** What to do next for the sensors that are out of date, in the order of the work, and then for those that were never calibrated. Never throws. */
export function nextSentences(states: readonly SensorState[]): readonly string[] {
  const old = states.filter(({ outOfDate }) => outOfDate.length > 0);
  const never = states.filter(({ found, sensor }) => found.length === 0 && sensor !== "other channels");
  return [...old, ...never].map(
    ({ sensor, found }) =>
      `${capital(sensor)}${found.length === 0 ? "" : ", again"}: by ${SETTLED_BY[sensor]}.`,
  );
}

/** What became of a finding. Never throws. */
export function keyedText({ present, toKeyIn }: StandingFinding): string {
  if (Number.isNaN(present)) return "";
  if (toKeyIn) return "not keyed in";
  return present === 0 ? "nothing to key in" : "keyed in";
}

/** Why a sensor's numbers no longer count, a sentence for each evidence that found another sensor otherwise. Never throws. */
export function outOfDateSentences({ sensor, found, outOfDate }: SensorState): readonly string[] {
  const by = [...new Set(outOfDate.map((why) => `${why.by.file}\n${why.sensor}`))].map((key) =>
    outOfDate.filter((why) => `${why.by.file}\n${why.sensor}` === key),
  );
  return by.map((alike) => {
    const { sensor: other, by: since } = alike[0]!;
    const was = alike.map(
      ({ name, was: value }) => `${findingValue(name, value)} (${findingName({ name, value, half: 0 })})`,
    );
    const now = alike.map(({ name, now: value }) => findingValue(name, value));
    const moved = [...new Set(alike.flatMap((why) => why.moved))];
    const what = moved.length < found.length ? ` (${named(moved)})` : "";
    return `${capital(sensor)}${what} was found from ${found[0]?.evidence.file ?? "nothing"} with the ${other} at ${listed(was)}; ${since.file} found ${listed(now)} since: find the ${sensor} again.`;
  });
}

/** No more of what a number rests on is told. */
const MOST_TOLD = 3;

/** The names of numbers, each as in a table. */
const named = (names: readonly FindingName[]): string =>
  listed(
    names.map((name) => findingName({ name, value: 0, half: 0 }).replace(/, (?:deg·kn²\/deg|°\/°)$/, "")),
  );

/** The deviation is one as a footing, whichever of its coefficients it is. */
const footingName = (name: FindingName): string =>
  /^compass\.[b-e]$/.test(name) ? "deviation" : named([name]);

/** "compass alignment (A) (masthead offset); leeway and deviation (upwash)": what numbers rest on, those that rest on the same together. */
function footingText(found: readonly StandingFinding[]): string {
  const groups = new Map<string, FindingName[]>();
  for (const { finding, restsOn } of found) {
    if (restsOn.length === 0) continue;
    const footing = listed([...new Set(restsOn.map(footingName))].slice(0, MOST_TOLD));
    groups.set(footing, [...(groups.get(footing) ?? []), finding.name]);
  }
  return [...groups]
    .map(([footing, names]) => (found.length === 1 ? footing : `${footing} (${named(names)})`))
    .join("; ");
}

/** What a sensor's numbers rest on: numbers of other sensors where that is known, else the sensors. Never throws. */
export function restsOnText({ found, restsOn }: SensorState): string {
  const [first] = found;
  if (!first) return "";
  if (restsOn.length === 0) return "no other sensor";
  const footing = footingText(found);
  if (footing !== "") return `${footing}, as the same log has it`;
  if (first.evidence.moves) return "hardly any other sensor";
  const own = restsOn.filter(({ from }) => from !== undefined).map(({ sensor }) => sensor);
  const stood = restsOn.filter(({ from }) => from === undefined).map(({ sensor }) => sensor);
  return [
    ...(own.length > 0 ? [`${listed(own)} of the same log`] : []),
    ...(stood.length > 0 ? [`${listed(stood)} as it stood in the instruments`] : []),
  ].join("; ");
}

const stateOf = ({ isOutOfDate }: StandingFinding): string => (isOutOfDate ? "out of date" : "holds");

/** The whole boat: each sensor's numbers, their interval, date, source, and whether they still hold. Plain text. Never throws. */
export function printedStates(states: readonly SensorState[], boatName: string): string {
  const rows = states.flatMap((state) =>
    state.found.length === 0
      ? [[state.sensor, "", "", "", "never calibrated"]]
      : state.found.map((one) => [
          findingName(one.finding),
          inColumn(findingValue(one.finding.name, one.finding.value)),
          inColumn(findingInterval(one.finding)),
          dayOf(one.evidence.at),
          [stateOf(one), keyedText(one)].filter((text) => text !== "").join(", "),
        ]),
  );
  const sources = states
    .filter(({ found }) => found.length > 0)
    .map(
      (state) =>
        `${capital(state.sensor)}: from ${listed([...new Set(state.found.map(({ evidence }) => evidence.file))])}; rests on ${restsOnText(state)}.`,
    );
  const old = states.flatMap(outOfDateSentences);
  return [
    ...paragraph(`The sensors of ${boatName}, in the order in which they are calibrated.`),
    "",
    ...columns([["", "found", "95 %", "sailed", "state"], ...rows]),
    ...list("Out of date", old),
    ...list("Where it comes from", sources),
    ...list("Next", nextSentences(states)),
    ...heading("Cautions"),
    ...paragraph(CAUTIONS.at(-1)!, "  - "),
    "",
  ].join("\n");
}
