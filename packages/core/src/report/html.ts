import { WITHOUT_NAME } from "../calibration/boat.ts";
import type { SensorState } from "../judge/sensorStates.ts";
import type { Answer } from "./answer.ts";
import { CAUTIONS } from "./cautions.ts";
import type { TableRow } from "./cells.ts";
import { deviationFigure } from "./figures/deviation.ts";
import type { Figure } from "./figures/figure.ts";
import { residualsFigure } from "./figures/residuals.ts";
import { upwashFigure } from "./figures/upwash.ts";
import { windDirectionFigure } from "./figures/windDirection.ts";
import { clock, filesInWords, unbroken } from "./format.ts";
import { html } from "./markup.ts";
import { agreementCards } from "./page/agreements.ts";
import { pageDocument, type Section } from "./page/document.ts";
import { numbersToKeyIn } from "./page/numbersToKeyIn.ts";
import { figureMarkup, sentenceList } from "./page/parts.ts";
import { recordingSection } from "./page/recordingSection.ts";
import { deviationTable } from "./page/settingsTable.ts";
import { whatToDo } from "./page/whatToDo.ts";
import { wholeBoatSection } from "./page/wholeBoat.ts";
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
  /** Where each sensor of the boat stands; left out where it was not reckoned. */
  readonly states?: readonly SensorState[];
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

function sections({ answer, tables, states }: ReportInput, figures: Figures): readonly Section[] {
  const solved: readonly Section[] = tables
    ? [
        { id: "numbers", title: "The numbers to key in", body: numbersToKeyIn(tables) },
        ...(figures.upwash
          ? [
              {
                id: "upwash-section",
                title: "Upwash",
                body: figureMarkup(figures.upwash),
                onScreenOnly: true,
              },
            ]
          : []),
        {
          id: "deviation-section",
          title: "Compass deviation",
          body: html`<div class="screen-only">${figureMarkup(figures.deviation)}</div>${deviationTable(tables)}`,
        },
        {
          id: "left-over",
          title: "What is left of the wind",
          body: figureMarkup(figures.residuals),
          onScreenOnly: true,
        },
      ]
    : [];
  return [
    { id: "agreements", title: "Three agreements", body: agreementCards(answer) },
    { id: "wind", title: "The wind, tack by tack", body: figureMarkup(figures.direction) },
    { id: "do", title: "What to do", body: whatToDo(answer) },
    ...solved,
    ...(states
      ? [{ id: "whole-boat", title: "The whole boat", body: wholeBoatSection(states), onScreenOnly: true }]
      : []),
    { id: "recording", title: "In the recording", body: recordingSection(answer) },
    { id: "cautions", title: "Cautions", body: sentenceList(CAUTIONS) },
  ];
}

/** "True wind calibration of …", or without the name where there is none. */
const titleOf = ({ boatName }: ReportInput): string =>
  `True wind calibration${boatName === "" || boatName === WITHOUT_NAME ? "" : ` of ${boatName}`}`;

/**
 * The report: one HTML document that needs nothing beside it and asks for nothing.
 *
 * @param plotlySource the text of plotly's minified browser build; it is inlined
 * @returns the document. Never throws.
 * @example
 * htmlReport({ answer, tables, rows, boatName: boat.name }, "").startsWith("<!doctype html>") // true
 */
export function htmlReport(input: ReportInput, plotlySource: string): string {
  const figures = figuresOf(input);
  const { recording } = input.answer;
  return pageDocument(
    {
      title: titleOf(input),
      lead: unbroken(conclusion(input.answer)),
      facts: `${filesInWords(recording.files)} · ${clock(recording.start)}`,
      sections: sections(input, figures),
      footer:
        "Wind directions are where the wind comes from; angles to the bow and heel are positive to starboard. Intervals are 95 %.",
      figures: Object.values(figures).filter((figure) => figure !== undefined),
    },
    plotlySource,
  );
}
