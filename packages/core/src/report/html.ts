import { WITHOUT_NAME } from "../calibration/boat.ts";
import type { Answer } from "./answer.ts";
import { CAUTIONS } from "./cautions.ts";
import type { TableRow } from "./cells.ts";
import { deviationFigure } from "./figures/deviation.ts";
import type { Figure } from "./figures/figure.ts";
import { residualsFigure } from "./figures/residuals.ts";
import { upwashFigure } from "./figures/upwash.ts";
import { windDirectionFigure } from "./figures/windDirection.ts";
import { clock, filesInWords, unbroken } from "./format.ts";
import { html, insideScript, jsonInsideScript, type Markup } from "./markup.ts";
import { agreementCards } from "./page/agreements.ts";
import { numbersToKeyIn } from "./page/numbersToKeyIn.ts";
import { figureMarkup, sentenceList } from "./page/parts.ts";
import { recordingSection } from "./page/recordingSection.ts";
import { SCRIPT } from "./page/script.ts";
import { deviationTable } from "./page/settingsTable.ts";
import { STYLE } from "./page/style.ts";
import { whatToDo } from "./page/whatToDo.ts";
import { conclusion } from "./summary.ts";
import type { CorrectionTables } from "./tables.ts";

/** What a report is drawn from. */
export interface ReportInput {
  readonly answer: Answer;
  /** Undefined where the fit is unsolved. */
  readonly tables: CorrectionTables | undefined;
  /** The rows that the fit was made from. */
  readonly rows: readonly TableRow[];
  /** Name of the boat; empty for none. */
  readonly boatName: string;
}

interface Section {
  readonly id: string;
  readonly title: string;
  readonly body: Markup;
}

interface Figures {
  readonly direction: Figure;
  readonly upwash: Figure | undefined;
  readonly deviation: Figure | undefined;
  readonly residuals: Figure | undefined;
}

function figuresOf({ answer, rows }: ReportInput): Figures {
  const { fit } = answer;
  const solved = fit.status === "solved";
  return {
    direction: windDirectionFigure(answer),
    upwash: solved ? upwashFigure(fit, rows) : undefined,
    deviation: solved ? deviationFigure(fit, rows) : undefined,
    residuals: residualsFigure(answer),
  };
}

function sections({ answer, tables }: ReportInput, figures: Figures): readonly Section[] {
  const solved: readonly Section[] = tables
    ? [
        { id: "numbers", title: "The numbers to key in", body: numbersToKeyIn(tables) },
        ...(figures.upwash
          ? [{ id: "upwash-section", title: "Upwash", body: figureMarkup(figures.upwash) }]
          : []),
        {
          id: "deviation-section",
          title: "Compass deviation",
          body: html`${figureMarkup(figures.deviation)}${deviationTable(tables)}`,
        },
        { id: "left-over", title: "What is left of the wind", body: figureMarkup(figures.residuals) },
      ]
    : [];
  return [
    { id: "agreements", title: "Three agreements", body: agreementCards(answer) },
    { id: "wind", title: "The wind, tack by tack", body: figureMarkup(figures.direction) },
    { id: "do", title: "What to do", body: whatToDo(answer) },
    ...solved,
    { id: "recording", title: "In the recording", body: recordingSection(answer) },
    { id: "cautions", title: "Cautions", body: sentenceList(CAUTIONS) },
  ];
}

const sectionMarkup = ({ id, title, body }: Section): Markup =>
  html`<section id="${id}" aria-labelledby="${id}-title"><h2 id="${id}-title">${title}</h2>${body}</section>`;

/** "True wind calibration of …", or without the name where there is none. */
const titleOf = ({ boatName }: ReportInput): string =>
  `True wind calibration${boatName === "" || boatName === WITHOUT_NAME ? "" : ` of ${boatName}`}`;

const header = (input: ReportInput, all: readonly Section[]): Markup => html`<header>
<h1>${titleOf(input)}</h1>
<p class="lead">${unbroken(conclusion(input.answer))}</p>
<p class="facts">${filesInWords(input.answer.recording.files)} · ${clock(input.answer.recording.start)}</p>
<nav aria-label="Sections"><ul>${all.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
</header>`;

/** Nothing may be fetched by the page, from anywhere. */
const POLICY =
  "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'";

/**
 * The report: one HTML document that needs nothing beside it and asks for nothing.
 *
 * @param plotlySource the text of plotly's minified browser build; it is inlined
 * @returns the document. Never throws.
 */
export function htmlReport(input: ReportInput, plotlySource: string): string {
  const figures = figuresOf(input);
  const all = sections(input, figures);
  const drawn = Object.values(figures).filter((figure) => figure !== undefined);
  const raw = (markup: string): Markup => ({ markup });
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="referrer" content="no-referrer">
<title>${titleOf(input)}</title>
<link rel="icon" href="data:,">
<style>${raw(STYLE)}</style>
</head>
<body>
${header(input, all)}
<main>
${all.map(sectionMarkup)}
</main>
<footer>Wind directions are where the wind comes from; angles to the bow and heel are positive to starboard. Intervals are 95 %.</footer>
<script type="application/json" id="figures">${raw(jsonInsideScript(drawn))}</script>
<script>${raw(insideScript(plotlySource))}</script>
<script>${raw(insideScript(SCRIPT))}</script>
</body>
</html>
`.markup;
}
