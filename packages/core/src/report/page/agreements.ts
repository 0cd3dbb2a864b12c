import type { Agreement } from "../../calibration/calibration.ts";
import { agreementSense, agreementText, agreementVerdict, shownAgreement } from "../agreementWords.ts";
import type { Answer } from "../answer.ts";
import { HALF_WIDTH_95, signed, unbroken } from "../format.ts";
import { html, type Markup, NOTHING } from "../markup.ts";

/** The strip's drawing: width, and the heights of its two rows and its axis. */
const STRIP = { width: 260, height: 66, before: 14, after: 33, axis: 48, edge: 14 } as const;

/** The strip reaches at least so far to both sides, so that a small disagreement looks small: degrees, percent. */
const LEAST_REACH = 4;

const rounded = (value: number): string => value.toFixed(1);

function bar(
  agreement: Agreement,
  at: number,
  x: (value: number) => number,
  name: "before" | "after",
): Markup {
  const { value, sd } = shownAgreement(agreement);
  if (Number.isNaN(value)) return NOTHING;
  const [low, high] = [x(value - HALF_WIDTH_95 * sd), x(value + HALF_WIDTH_95 * sd)].map(rounded);
  return html`<g class="strip-${name}"><line x1="${low!}" x2="${high!}" y1="${at}" y2="${at}"/><circle cx="${rounded(x(value))}" cy="${at}" r="5"/></g>`;
}

/** Before and after with their intervals about zero. */
function strip(before: Agreement, after: Agreement | undefined): Markup {
  const shown = [before, ...(after ? [after] : [])]
    .map(shownAgreement)
    .filter(({ value }) => !Number.isNaN(value));
  if (shown.length === 0) return html`<div></div>`;
  const reach = Math.max(LEAST_REACH, ...shown.map(({ value, sd }) => Math.abs(value) + HALF_WIDTH_95 * sd));
  const x = (value: number): number => STRIP.width / 2 + (value / reach) * (STRIP.width / 2 - STRIP.edge);
  const step = [1, 2, 5, 10, 20, 45].find((candidate) => reach / candidate <= 3) ?? 90;
  const ticks = [-2, -1, 0, 1, 2].map((n) => n * step).filter((tick) => Math.abs(tick) <= reach);
  const unit = shown[0]!.unit;
  const label = `before ${agreementText(before)}${after ? `, after ${agreementText(after)}` : ""}`;
  return html`<svg class="strip" viewBox="0 0 ${STRIP.width} ${STRIP.height}" role="img" aria-label="${label}">
<line class="strip-line" x1="0" x2="${STRIP.width}" y1="${STRIP.axis}" y2="${STRIP.axis}"/>
<line class="strip-zero" x1="${rounded(x(0))}" x2="${rounded(x(0))}" y1="2" y2="${STRIP.axis}"/>
${ticks.map((tick) => html`<text x="${rounded(x(tick))}" y="${STRIP.height - 4}" text-anchor="middle">${signed(tick, 0)}${unit}</text>`)}
${bar(before, STRIP.before, x, "before")}${after ? bar(after, STRIP.after, x, "after") : NOTHING}
</svg>`;
}

function card(before: Agreement, after: Agreement | undefined): Markup {
  const title = before.kind.charAt(0).toUpperCase() + before.kind.slice(1);
  return html`<div class="agreement">
<h3>${title}</h3>
<p class="quiet">${agreementSense(before)}</p>
<p class="after">${unbroken(agreementText(after ?? before))}</p>
<p class="quiet">${after ? `before: ${agreementText(before)}` : ""}</p>
${strip(before, after)}
<p class="quiet">${agreementVerdict(before, after)}</p>
</div>`;
}

/** The three agreements, before and after, each a card. Never throws. */
export const agreementCards = ({ before, after }: Answer): Markup => html`<div class="agreements">
${before.map((agreement, index) => card(agreement, after?.[index]))}
</div>`;
