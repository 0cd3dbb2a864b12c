import { degrees, knots } from "../../units.ts";
import type { WindReading } from "../computer.ts";
import { type DeviationEntry, isTold } from "../deviationCard.ts";
import { informedInWords, LEARNT, plain, signed, threeFigures, unbroken, withInterval } from "../format.ts";
import { html, type Markup, NOTHING } from "../markup.ts";
import { amountText, intervalText, type SingleSetting } from "../settings.ts";
import { adviceText } from "../summary.ts";
import type { CorrectionTables } from "../tables.ts";
import type { WorkedReading } from "../workedReading.ts";
import { describedTable, tackName } from "./parts.ts";

function advice(setting: SingleSetting, base: CorrectionTables["base"]): string {
  const { advice: what } = setting;
  if (what === "no place") return "not for this computer";
  if (what === "not learnt") return "leave as it is";
  return base === "unknown corrections" && what !== "key in" ? "leave as it is" : adviceText(setting);
}

function settingRow(setting: SingleSetting, base: CorrectionTables["base"]): Markup {
  const { name, unit, estimate, to } = setting;
  const known = estimate.informed >= LEARNT && setting.advice !== "no place";
  const leeway = unit === "leeway";
  const bare = (text: string): string => (leeway ? text.replace(" deg·kn²/deg", "") : text);
  const value = known ? bare(amountText(estimate.value, unit)) : "";
  const interval = known ? bare(intervalText(estimate, unit)) : "";
  const use = leeway ? "set to this, in deg·kn²/deg" : `added to ${to}`;
  return html`<tr>
<th scope="row">${name.charAt(0).toUpperCase() + name.slice(1)}<span class="evidence">${use}</span></th>
<td class="number"><span class="entry${setting.advice === "key in" ? "" : " small-change"}">${unbroken(value)}</span><span class="evidence">${unbroken(interval)}</span></td>
<td>${advice(setting, base)}<span class="evidence">${setting.advice === "no place" ? "" : informedInWords(estimate.informed)}</span></td>
</tr>`;
}

/** The settings that are one number each. Never throws. */
export const settingsTable = ({ settings, base }: CorrectionTables): Markup =>
  describedTable(
    "settings-description",
    "Amounts added to the reading, angles positive to starboard; below each half its 95 % interval, and how far the data speak for it.",
    html`<table class="settings" aria-labelledby="settings-description">
<thead><tr><th scope="col">Setting</th><th scope="col" class="number">Add</th><th scope="col">Advice</th></tr></thead>
<tbody>${settings.map((setting) => settingRow(setting, base))}</tbody>
</table>`,
  );

const wind = ({ angle, speed }: WindReading): string =>
  unbroken(`${signed(degrees(angle), 1)}°, ${plain(knots(speed), 1)} kn`);

function workedRow(worked: WorkedReading, place: CorrectionTables["computer"]["table"]): Markup {
  const added = html`<td class="number">${wind(worked.beforeTable)}</td><td class="number">${wind(worked.afterTable)}</td>`;
  return html`<tr>
<th scope="row">${tackName(worked.tack)}</th>
<td class="number">${wind(worked.reading)}</td>
<td class="number">${wind(worked.afterSettings)}</td>
${place === "none" ? NOTHING : place === "apparent" ? html`<td class="number">${wind(worked.afterTable)}</td>` : added}
${place === "true" ? NOTHING : html`<td class="number">${wind(worked.trueWind)}</td>`}
</tr>`;
}

const WORKED_HEADS = {
  apparent: ["Reading", "after the settings", "after the table", "true wind shown"],
  true: ["Reading", "after the settings", "true wind before the table", "true wind after the table"],
  none: ["Reading", "after the settings", "true wind shown"],
} as const;

/** One reading of each tack, worked through what is keyed in. Never throws. */
export const workedTable = ({ worked, computer, tableAdvice }: CorrectionTables): Markup => {
  const place = tableAdvice === "key in" ? computer.table : "none";
  return worked.length === 0
    ? NOTHING
    : html`<h3>One reading worked through on each tack</h3>
${describedTable(
  "worked-description",
  "Check the signs with these: wind angle to the bow (starboard positive) and wind speed.",
  html`<table aria-labelledby="worked-description">
<thead><tr><th scope="col">Tack</th>${WORKED_HEADS[place].map((head) => html`<th scope="col" class="number">${head}</th>`)}</tr></thead>
<tbody>${worked.map((one) => workedRow(one, place))}</tbody>
</table>`,
)}`;
};

const deviationCell = (entry: DeviationEntry): Markup => {
  const { heading, estimate, sailed } = entry;
  const text = isTold(entry)
    ? withInterval(degrees(estimate.value), degrees(estimate.sd), 1, "°")
    : sailed
      ? "not learnt"
      : "not sailed";
  return html`<th scope="row" class="number">${threeFigures(degrees(heading))}°</th><td class="number">${text}</td>`;
};

/** The deviation card in three columns of eight headings. Never throws. */
export function deviationTable({ deviation, deviationAdvice }: CorrectionTables): Markup {
  const rows = deviation.length / 3;
  const line = (index: number): Markup =>
    html`<tr>${[0, 1, 2].map((column) => deviationCell(deviation[index + column * rows]!))}</tr>`;
  const head = html`<th scope="col" class="number">Compass</th><th scope="col" class="number">Add</th>`;
  return describedTable(
    "deviation-description",
    `Deviation card: added to the heading reading once the alignment (A) is set, boat upright, with 95 % intervals.${deviationAdvice === "key in" ? "" : " Leave it alone: no entry asks for more than chance brings among so many."}`,
    html`<table aria-labelledby="deviation-description">
<thead><tr>${[head, head, head]}</tr></thead>
<tbody>${Array.from({ length: rows }, (_, index) => line(index))}</tbody>
</table>`,
  );
}
