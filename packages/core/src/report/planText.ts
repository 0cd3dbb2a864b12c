import { EXPECTATION_NOTE, PLAN_TITLES, type PlanText, planSections } from "./planSections.ts";
import { columns, heading, list, paragraph } from "./textLines.ts";

export type { PlanText };

/**
 * What to sail next, as printed text of at most 92 columns.
 *
 * @returns text that ends in a line feed. Never throws.
 * @example
 * printedPlan({ fit, plan: planFrom(fit, boat, calibration.recording.chosen, { seconds: 900 }) }).endsWith("\n") // true
 */
export function printedPlan(text: PlanText): string {
  const { head, steps, tables, hardlyTold, cautions } = planSections(text);
  return [
    ...paragraph(head),
    ...heading(PLAN_TITLES.steps),
    ...steps.flatMap((sentence, index) => paragraph(sentence, `${String(index + 1).padStart(3)}. `)),
    ...heading(PLAN_TITLES.tables),
    ...tables.flatMap((rows, index) => [...(index > 0 ? [""] : []), ...columns(rows)]),
    "",
    ...paragraph(EXPECTATION_NOTE, "  "),
    ...list(PLAN_TITLES.hardlyTold, hardlyTold),
    ...list(PLAN_TITLES.cautions, cautions),
    "",
  ].join("\n");
}
