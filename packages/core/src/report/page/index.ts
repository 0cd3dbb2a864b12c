// What a page beside the report needs to look and read like it: colours, parts of the page, figures, escaping.

export { agreementSense, agreementText, agreementVerdict, shownAgreement } from "../agreementWords.ts";
export { CAUTIONS } from "../cautions.ts";
export type { CheckedRecording } from "../check.ts";
export { gapSentences } from "../checkText.ts";
export {
  COMPARISON_TITLES,
  comparisonWords,
  levelSentence,
  type NameOf,
  SETTINGS_NOTE,
} from "../compareWords.ts";
export { confoundedSentence } from "../confoundedWords.ts";
export { type Evidence, evidenceIn } from "../evidence.ts";
export { deviationFigure } from "../figures/deviation.ts";
export { besideDirections, unwrappedDirections } from "../figures/directions.ts";
export * from "../figures/figure.ts";
export { recordingTimeline } from "../figures/recordingTimeline.ts";
export { residualsFigure } from "../figures/residuals.ts";
export { gapBreaks, legMeans } from "../figures/time.ts";
export { upwashFigure } from "../figures/upwash.ts";
export { windDirectionFigure } from "../figures/windDirection.ts";
export * from "../format.ts";
export { escaped, html, insideScript, jsonInsideScript, type Markup, NOTHING } from "../markup.ts";
export {
  parameterAmount,
  parameterInterval,
  parameterNumber,
  parameterRow,
  parameterUnit,
} from "../parameterAmounts.ts";
export { PARAMETER_WORDS } from "../parameterWords.ts";
export {
  EXPECTATION_NOTE,
  nothingToPlan,
  PLAN_RANGES,
  PLAN_TITLES,
  type PlanText,
  planSections,
  USUAL_MINUTES,
} from "../planSections.ts";
export { pairWords, sourceWords } from "../sourceWords.ts";
export { adviceText, conclusion } from "../summary.ts";
export { agreementCards } from "./agreements.ts";
export { IN_PRINT, PAGE_LAYOUT, PLOTLY_CONFIG } from "./drawing.ts";
export { numbersToKeyIn } from "./numbersToKeyIn.ts";
export { describedTable, sentenceList, tackName, titledList } from "./parts.ts";
export { plotlyScript } from "./plotlyInSteps.ts";
export { recordingSection } from "./recordingSection.ts";
export { deviationTable } from "./settingsTable.ts";
export { DARK, LIGHT, PARTS, PARTS_IN_PRINT } from "./style.ts";
export { whatToDo } from "./whatToDo.ts";
