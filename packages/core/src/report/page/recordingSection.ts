import { degrees } from "../../units.ts";
import {
  clock,
  counted,
  duration,
  grouped,
  inWords,
  listed,
  plain,
  sailedWords,
  unbroken,
} from "../format.ts";
import { html, type Markup, NOTHING } from "../markup.ts";
import { linesInWords, type RecordedSailing } from "../recordingText.ts";
import { sensorTroubleWords } from "../troubleWords.ts";
import { describedTable, titledList } from "./parts.ts";

type Recording = RecordedSailing["recording"];

const sourceRow = ({ source, why, rate }: Recording["chosen"][number], taken: boolean): Markup => html`<tr>
<th scope="row">${inWords(source.quantity)}</th><td><code>${source.name}</code><span class="evidence">${plain(rate, 1)} a second</span></td><td class="text">${taken ? "taken" : "not taken"}<span class="evidence">${why}</span></td></tr>`;

const sources = ({ chosen, others }: Recording): Markup =>
  describedTable(
    "sources-description",
    "Sources in the recording, and which of them was taken for each quantity.",
    html`<table aria-labelledby="sources-description">
<thead><tr><th scope="col">Quantity</th><th scope="col">Source</th><th scope="col">Choice</th></tr></thead>
<tbody>${chosen.map((one) => sourceRow(one, true))}${others.map((one) => sourceRow(one, false))}</tbody>
</table>`,
  );

/** So many of the problems are shown; their count is told in full. */
const PROBLEMS_SHOWN = 20;

function problems({ problems: all, lines }: Recording): Markup {
  if (all.length === 0) return NOTHING;
  const shown = all.slice(0, PROBLEMS_SHOWN);
  return html`<h3>Lines that could not be read</h3>
${describedTable(
  "problems-description",
  `The first ${shown.length} of ${grouped(lines.problems)}; reading went on past each.`,
  html`<table aria-labelledby="problems-description">
<thead><tr><th scope="col">Where</th><th scope="col">Problem</th><th scope="col">Expected</th></tr></thead>
<tbody>${shown.map(({ file, line, kind, expected, received }) => html`<tr><th scope="row"><code>${file}</code><span class="evidence">line ${grouped(line)}</span></th><td>${kind}</td><td class="text">${expected}<span class="evidence">received <code class="received">${received}</code></span></td></tr>`)}</tbody>
</table>`,
)}`;
}

function course({ legs, turns }: RecordedSailing): string {
  const number = (kind: "tack" | "gybe"): string =>
    counted(turns.filter((turn) => turn.kind === kind).length, kind);
  const sides = (["starboard", "port"] as const).flatMap((tack) => {
    const seconds = legs
      .filter((leg) => leg.tack === tack)
      .reduce((sum, { start, end }) => sum + end - start, 0);
    return seconds > 0 ? [`${duration(seconds)} on ${tack} tack`] : [];
  });
  const turned = turns
    .filter(({ kind }) => kind === "tack")
    .map(({ change }) => Math.abs(degrees(change)))
    .sort((a, b) => a - b);
  const usual = turned[Math.floor(turned.length / 2)];
  const through = usual === undefined ? "" : ` (through ${plain(usual, 0)}° of heading in the median)`;
  const held = sides.length > 0 ? ` (${listed(sides)})` : "";
  return `${counted(legs.length, "steady leg")}${held}, ${number("tack")}${through} and ${number("gybe")}.`;
}

const lags = ({ lags: all }: Recording): Markup =>
  all.length === 0
    ? NOTHING
    : html`<p class="screen-only">Lags between the sensors, taken out before anything else: ${all.map(({ channel, seconds }) => `${channel} ${plain(seconds, 1)} s`).join(", ")}.</p>`;

/** What was in the recording. Never throws. */
export function recordingSection(recorded: RecordedSailing): Markup {
  const { recording } = recorded;
  const { seconds } = recording;
  return html`<p>${unbroken(`${clock(recording.start)} to ${clock(recording.end)}: ${sailedWords(seconds)}. ${course(recorded)} Directions are ${recording.directionsAre}.`)}</p>
<p class="screen-only">${linesInWords(recording)}</p>
${titledList(
  "Not used",
  (recording.filesLeftOut ?? []).map(({ name, reason }) => `${name}, ${reason}.`),
)}
${lags(recording)}
${titledList("Sensors in trouble", sensorTroubleWords(recorded))}
<div class="screen-only">${sources(recording)}
${problems(recording)}</div>`;
}
