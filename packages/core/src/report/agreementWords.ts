import type { Agreement } from "../calibration/calibration.ts";
import { degrees } from "../units.ts";
import { counted, HALF_WIDTH_95, withInterval } from "./format.ts";

/** An agreement in the unit in which it is shown. */
export interface ShownAgreement {
  readonly value: number;
  readonly sd: number;
  readonly unit: "°" | " %";
}

/** What each compares: the sense of its sign. */
const SENSE: Readonly<Record<Agreement["kind"], string>> = {
  "direction between tacks": "starboard less port",
  "direction upwind against downwind": "upwind less downwind",
  "speed between tacks": "starboard over port",
};

export const agreementSense = ({ kind }: Agreement): string => SENSE[kind];

/** The disagreement in degrees, or in percent of wind speed. Never throws. */
export function shownAgreement({ kind, value, sd }: Agreement): ShownAgreement {
  return kind === "speed between tacks"
    ? { value: 100 * Math.expm1(value), sd: 100 * Math.exp(value) * sd, unit: " %" }
    : { value: degrees(value), sd: degrees(sd), unit: "°" };
}

/** "+0.4° ± 1.0°", or that there was nothing to compare. Never throws. */
export function agreementText(agreement: Agreement): string {
  const { value, sd, unit } = shownAgreement(agreement);
  return Number.isNaN(value) ? "not known" : withInterval(value, sd, 1, unit);
}

/** Whether what is left is more than its own interval. */
export const stands = ({ value, sd }: Agreement): boolean => Math.abs(value) > HALF_WIDTH_95 * sd;

/** What an agreement comes to, in a sentence. Never throws. */
export function agreementVerdict(before: Agreement, after: Agreement | undefined): string {
  const shown = after ?? before;
  if (Number.isNaN(shown.value)) return "Nothing in this recording compares them.";
  const basis = ` (${counted(shown.contrasts, "comparison")})`;
  if (!after) return stands(before) ? `They disagree${basis}.` : `No disagreement beyond the doubt${basis}.`;
  if (stands(after)) return `They still disagree${basis}.`;
  return stands(before)
    ? `They agree now, as far as the data can tell${basis}.`
    : `They agreed before and still do, as far as the data can tell${basis}.`;
}
