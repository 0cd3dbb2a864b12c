import type { SourceRow } from "../recording/inventoryPart.ts";
import { CAUTIONS } from "./cautions.ts";
import type { Check } from "./check.ts";
import { choiceSentences, gapSentences, inOrder, lagSentences } from "./checkText.ts";
import { evidenceIn } from "./evidence.ts";
import { recordingTimeline } from "./figures/recordingTimeline.ts";
import { clock, counted, duration, filesInWords, grouped, inWords, plain, sailedWords } from "./format.ts";
import { html, type Markup, NOTHING } from "./markup.ts";
import { pageDocument, type Section } from "./page/document.ts";
import { describedTable, figureMarkup, sentenceList, titledList } from "./page/parts.ts";
import { amountOf, stepOf } from "./quantityUnits.ts";
import { pairWords, sourceWords } from "./sourceWords.ts";
import { sensorTroubleWords } from "./troubleWords.ts";

/** A number of things that are wrong; nothing where there are none. */
const few = (number: number): string => (number === 0 ? "" : grouped(number));

const time = (seconds: number): string => (seconds > 0 ? duration(seconds) : "");

const known = (value: number, text: string): string => (Number.isNaN(value) ? "" : text);

function sourceRow(row: SourceRow & { readonly isTaken: boolean }): Markup {
  const { source, rate, resolution, lowest, highest, isTaken } = row;
  const { quantity, name } = source;
  const isPlace = quantity === "latitude" || quantity === "longitude";
  const range = known(
    isPlace ? Number.NaN : lowest,
    `${amountOf(quantity, lowest)} to ${amountOf(quantity, highest)}`,
  );
  return html`<tr><th scope="row">${inWords(quantity)}</th><td><code>${name}</code>${isTaken ? html`<span class="evidence">taken</span>` : NOTHING}</td>
<td class="number">${known(rate, `${plain(rate, 1)} Hz`)}</td><td class="number">${known(resolution, stepOf(quantity, resolution))}</td><td class="number">${range}</td>
<td class="number">${time(row.gapSeconds)}</td><td class="number">${time(row.frozenSeconds + row.zeroSeconds)}</td><td class="number">${few(row.spikes + row.leaps)}</td></tr>`;
}

const HEADS = ["Rate", "Steps", "Range", "Silent", "Still", "Wild"] as const;

const sensors = (check: Check): Markup =>
  describedTable(
    "sensors-description",
    "All sources in the recording. Still: at one value, or a speed at 0. Wild: lone readings far off, and changes that no boat makes.",
    html`<table aria-labelledby="sensors-description">
<thead><tr><th scope="col">Quantity</th><th scope="col">Source</th>${HEADS.map((head) => html`<th scope="col" class="number">${head}</th>`)}</tr></thead>
<tbody>${inOrder(check).map(sourceRow)}</tbody>
</table>`,
  );

/** So many of the problems are shown; their count is told in full. */
const PROBLEMS_SHOWN = 20;

const problems = ({ recording: { problems: all, lines } }: Check): Markup =>
  all.length === 0
    ? NOTHING
    : describedTable(
        "problems-description",
        `The first ${Math.min(PROBLEMS_SHOWN, all.length)} of ${grouped(lines.problems)} records that could not be read; reading went on past each.`,
        html`<table aria-labelledby="problems-description">
<thead><tr><th scope="col">Where</th><th scope="col">Problem</th><th scope="col">Expected</th></tr></thead>
<tbody>${all.slice(0, PROBLEMS_SHOWN).map(({ file, line, kind, expected, received }) => html`<tr><th scope="row"><code>${file}</code><span class="evidence">line ${grouped(line)}</span></th><td>${kind}</td><td class="text">${expected}<span class="evidence">received <code class="received">${received}</code></span></td></tr>`)}</tbody>
</table>`,
      );

const filesMarkup = ({ recording, health }: Check): Markup => {
  const { lines } = recording;
  const used = health.logs.map(
    ({ name, start, end }) =>
      `${name}: ${Number.isNaN(start) ? "no time told" : `${clock(start)} to ${clock(end)}`}.`,
  );
  const unused = (recording.filesLeftOut ?? []).map(({ name, reason }) => `${name}, ${reason}.`);
  return html`<p>${grouped(lines.lines)} records: ${grouped(lines.used)} used, ${grouped(lines.ignored)} ignored, ${grouped(lines.problems)} with problems.</p>
${sentenceList(used)}${titledList("Not used", unused)}`;
};

function sectionsOf(check: Check, timeline: Markup): readonly Section[] {
  const { can, cannot } = evidenceIn(check, check.rows);
  const stands = [...sensorTroubleWords(check), ...sourceWords(check)];
  return [
    {
      id: "calibrate",
      title: "What it can calibrate",
      body: html`${sentenceList(can)}${titledList("What it cannot, and why", cannot)}`,
    },
    { id: "time", title: "Through time", body: timeline },
    {
      id: "stands-out",
      title: "What stands out",
      body: stands.length === 0 ? html`<p>Nothing.</p>` : sentenceList(stands),
    },
    {
      id: "sensors",
      title: "Sensors",
      body: html`${sensors(check)}${titledList("Which was taken", choiceSentences(check))}${titledList("Sensors of one quantity beside each other", pairWords(check))}${titledList("In step", lagSentences(check))}`,
    },
    {
      id: "logs",
      title: "Logs",
      body: html`${filesMarkup(check)}${titledList("Gaps in the whole log", gapSentences(check.health.gaps))}${problems(check)}`,
    },
    { id: "cautions", title: "Cautions", body: sentenceList(CAUTIONS) },
  ];
}

/**
 * What is in a recording, as a page: one HTML document that needs nothing beside it and asks for nothing.
 *
 * @param plotlySource the text of plotly's minified browser build; it is inlined
 * @returns the document. Never throws.
 * @example
 * const { recording, sailing, health } = summary;
 * checkPage({ recording, ...sailing, health }, "").includes("Through time") // true
 */
export function checkPage(check: Check, plotlySource: string): string {
  const timeline = recordingTimeline(check);
  const { recording } = check;
  const { can, cannot } = evidenceIn(check, check.rows);
  return pageDocument(
    {
      title: "What is in the recording",
      lead: `${sailedWords(recording.seconds)}. It can calibrate ${can.length} of ${counted(can.length + cannot.length, "thing")}.`,
      facts: `${filesInWords(recording.files)} · ${clock(recording.start)} to ${clock(recording.end)}`,
      sections: sectionsOf(check, figureMarkup(timeline)),
      footer: "Angles to the bow and heel are positive to starboard. Lags hold what damping delays.",
      figures: [timeline],
    },
    plotlySource,
  );
}
