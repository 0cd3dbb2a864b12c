import { WITHOUT_NAME } from "../../calibration/boat.ts";
import type { SensorState, StandingFinding } from "../../judge/sensorStates.ts";
import { CAUTIONS } from "../cautions.ts";
import { findingInterval, findingName, findingValue } from "../findingText.ts";
import { capital, clock, unbroken } from "../format.ts";
import { html, type Markup, NOTHING } from "../markup.ts";
import { keyedText, outOfDateSentence, restsOnText } from "../stateText.ts";
import { depthDrawing } from "./depthDrawing.ts";
import { pageDocument } from "./document.ts";
import { describedTable, sentenceList, titledList } from "./parts.ts";

const COLUMNS = ["Sensor", "Found", "95 %", "Sailed", "From", "Rests on", "State"] as const;

const stateText = (state: SensorState, one: StandingFinding): string =>
  [state.outOfDate.length > 0 ? "out of date" : "holds", keyedText(one)]
    .filter((text) => text !== "")
    .join(", ");

function rowsOf(state: SensorState): Markup {
  const { sensor, found } = state;
  if (found.length === 0)
    return html`<tr><th scope="row">${capital(sensor)}</th><td colspan="6" class="unlearnt">never calibrated</td></tr>`;
  return html`${found.map(
    (one) => html`<tr>
<th scope="row">${capital(findingName(one.finding))}</th>
<td class="number">${unbroken(findingValue(one.finding.name, one.finding.value))}</td>
<td class="number">${unbroken(findingInterval(one.finding))}</td>
<td class="number">${clock(one.evidence.at).slice(0, 10)}</td>
<td>${one.evidence.kind === "calibration" ? "a log" : one.evidence.kind}<span class="evidence">${one.evidence.file}</span></td>
<td>${restsOnText(state)}</td>
<td>${stateText(state, one)}</td>
</tr>`,
  )}`;
}

/** Where each sensor of the boat stands: its numbers with intervals, dates, sources, what they rest on, whether they hold. Never throws. */
export function wholeBoatSection(states: readonly SensorState[]): Markup {
  const old = states.flatMap((state) => state.outOfDate.map((why) => outOfDateSentence(state, why)));
  const depth = states.flatMap(({ found }) => found).find(({ finding }) => finding.name === "depth.offset")
    ?.finding.value;
  return html`${describedTable(
    "whole-boat-description",
    "Every sensor in the order in which it is calibrated, since each uses some of those above it. Numbers are counted from the sensors without corrections, or from what stood in them where nobody said what that was.",
    html`<table aria-labelledby="whole-boat-description">
<thead><tr>${COLUMNS.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>${states.map(rowsOf)}</tbody>
</table>`,
  )}
${titledList("Out of date", old)}
${depth === undefined ? NOTHING : depthDrawing(depth)}`;
}

/** The same as a page of its own. Never throws. */
export function wholeBoatPage(states: readonly SensorState[], boatName: string): string {
  const known = states.filter(({ found }) => found.length > 0).length;
  const old = states.filter(({ outOfDate }) => outOfDate.length > 0).length;
  const of = boatName === "" || boatName === WITHOUT_NAME ? "" : ` of ${boatName}`;
  return pageDocument(
    {
      title: `The sensors${of}`,
      lead: `${known} of ${states.length} sensors have been calibrated; ${old === 0 ? "none is out of date" : `${old} ${old === 1 ? "is" : "are"} out of date`}.`,
      facts: "From the boat's history: calibrations from logs, and deliberate exercises.",
      sections: [
        { id: "whole-boat", title: "The whole boat", body: wholeBoatSection(states) },
        { id: "cautions", title: "Cautions", body: sentenceList(CAUTIONS) },
      ],
      footer: "Angles to the bow and heel are positive to starboard. Intervals are 95 %.",
      figures: [],
    },
    "",
  );
}
