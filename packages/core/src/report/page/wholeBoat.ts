import { WITHOUT_NAME } from "../../calibration/boat.ts";
import type { SensorState, StandingFinding } from "../../judge/sensorStates.ts";
import { CAUTIONS } from "../cautions.ts";
import { findingInterval, findingName, findingValue, inColumn } from "../findingText.ts";
import { capital, clock, listed, unbroken } from "../format.ts";
import { html, type Markup, NOTHING } from "../markup.ts";
import { nextSentences, outOfDateSentences, restsOnText } from "../stateText.ts";
import { depthDrawing } from "./depthDrawing.ts";
import { pageDocument } from "./document.ts";
import { describedTable, sentenceList, titledList } from "./parts.ts";

const COLUMNS = ["Sensor", "Found, with 95 % intervals", "State", "Sailed, from", "Rests on"] as const;

const lines = (texts: readonly string[], kind: "entry small-change" | "evidence"): Markup =>
  html`${texts.map((text) => html`<span class="${kind}">${unbroken(text)}</span>`)}`;

const foundText = ({ finding }: StandingFinding): string =>
  `${findingName(finding)} ${inColumn(findingValue(finding.name, finding.value))} ${inColumn(findingInterval(finding))}`;

/** The files that found a sensor, each with its day and what it was. */
function sourceLines({ found }: SensorState): Markup {
  const sources = new Map(found.map(({ evidence }) => [evidence.file, evidence]));
  return html`${[...sources.values()].map(
    ({ file, at, kind }) =>
      html`<span class="entry small-change">${clock(at).slice(0, 10)}, ${kind === "calibration" ? "a log" : kind}</span>${lines([file], "evidence")}`,
  )}`;
}

/** Which of a sensor's numbers still wait to be keyed in; none where what stands in the instruments is not known. */
function waiting({ found }: SensorState): readonly string[] {
  const names = found.filter(({ toKeyIn }) => toKeyIn).map(({ finding }) => findingName(finding));
  return names.length === 0 ? [] : [`not keyed in: ${listed(names)}`];
}

function sensorRow(state: SensorState): Markup {
  const { sensor, found, outOfDate } = state;
  if (found.length === 0)
    return html`<tr><th scope="row">${capital(sensor)}</th><td><span class="unlearnt">nothing</span></td><td>never calibrated</td><td></td><td></td></tr>`;
  return html`<tr>
<th scope="row">${capital(sensor)}</th>
<td>${lines(found.map(foundText), "entry small-change")}</td>
<td class="text">${outOfDate.length > 0 ? "out of date" : "holds"}${lines(waiting(state), "evidence")}</td>
<td class="text">${sourceLines(state)}</td>
<td class="text">${restsOnText(state)}</td>
</tr>`;
}

/** Where each sensor of the boat stands: its numbers with intervals, dates, sources, what they rest on, whether they hold. Never throws. */
export function wholeBoatSection(states: readonly SensorState[]): Markup {
  const old = states.flatMap(outOfDateSentences);
  const depth = states.flatMap(({ found }) => found).find(({ finding }) => finding.name === "depth.offset")
    ?.finding.value;
  return html`${describedTable(
    "whole-boat-description",
    "Every sensor in the order in which it is calibrated, since each uses some of those above it. Numbers are counted from the sensors without corrections, or from what stood in them where nobody said what that was.",
    html`<table class="states" aria-labelledby="whole-boat-description">
<thead><tr>${COLUMNS.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>${states.map(sensorRow)}</tbody>
</table>`,
  )}
${titledList("Out of date", old)}
${titledList("Next", nextSentences(states))}
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
