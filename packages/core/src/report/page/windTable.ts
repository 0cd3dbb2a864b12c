import { degrees, knots } from "../../units.ts";
import { type Band, bandsSpanned, cellAt } from "../cells.ts";
import type { TableCell } from "../entries.ts";
import { counted, HALF_WIDTH_95, LEARNT, plain, signed } from "../format.ts";
import { html, type Markup } from "../markup.ts";
import { isWithinDoubt } from "../standsOut.ts";
import type { CorrectionTables } from "../tables.ts";
import { describedTable, tackName } from "./parts.ts";

type WindQuantity = "angle" | "speed";

const inEdgeUnit = (value: number, quantity: WindQuantity): number =>
  quantity === "angle" ? degrees(value) : knots(value);

/** The amount, below it its interval and the evidence; empty where nothing was sailed. */
function entry(cell: TableCell | undefined, quantity: WindQuantity, isLeftAlone: boolean): Markup {
  if (!cell) return html`<td></td>`;
  const { value, sd, informed } = cell[quantity];
  const legs = counted(cell.legs, "leg");
  if (!(informed >= LEARNT))
    return html`<td><span class="unlearnt">not learnt</span><span class="evidence">${legs}</span></td>`;
  const half = HALF_WIDTH_95 * sd;
  const small = isLeftAlone || isWithinDoubt(cell[quantity]) ? " small-change" : "";
  return html`<td><span class="entry${small}">${signed(inEdgeUnit(value, quantity), 1)}</span><span class="evidence">± ${plain(inEdgeUnit(half, quantity), 1)} · ${legs}</span></td>`;
}

const bandText = ({ low, high }: Band, unit: (value: number) => number): string =>
  `${plain(unit(low), 0)}–${plain(unit(high), 0)}`;

/** The rows of one band of wind speed: its name, then a row for each tack. */
function bandRows(
  { cells, computer, tableAdvice }: CorrectionTables,
  quantity: WindQuantity,
  windBand: Band,
  angles: readonly Band[],
): Markup {
  const isLeftAlone = computer.table !== "none" && tableAdvice === "leave alone";
  const rows = (["starboard", "port"] as const).map((tack) => {
    const entries = angles.map((angleBand) =>
      entry(cellAt(cells, tack, windBand, angleBand), quantity, isLeftAlone),
    );
    return html`<tr><th scope="row">${tackName(tack)}</th>${entries}</tr>`;
  });
  return html`<tbody><tr class="band"><th scope="rowgroup" colspan="${angles.length + 1}"><span>${bandText(windBand, knots)} kn</span></th></tr>${rows}</tbody>`;
}

function description({ computer, tableAdvice }: CorrectionTables, quantity: WindQuantity): string {
  const place = computer.table === "true" ? "true" : "apparent";
  const unit = quantity === "angle" ? "degrees, positive to starboard" : "knots";
  const what =
    computer.table === "none"
      ? `What stays uncorrected in the ${place} wind ${quantity}, since the computer has no table: ${unit}`
      : `Added to the reading of the ${place} wind ${quantity} after the settings above, in ${unit}`;
  const all =
    computer.table === "none" || tableAdvice === "key in"
      ? ""
      : " Leave this table alone: none of its entries asks for more than chance brings among so many.";
  return `${what}; by ${place} wind speed and by the size of the ${place} wind angle. Below each entry half its 95 % interval, to which the doubt of the settings comes, and the legs that it rests on; entries in thin type are no more than their own doubt, and cells where nothing was sailed are blank.${all}`;
}

/** The table of one quantity over wind speed and angle. Never throws. */
function windTable(tables: CorrectionTables, quantity: WindQuantity): Markup {
  if (tables.cells.every((cell) => !(cell[quantity].informed >= LEARNT)))
    return html`<p>This recording tells nothing to add to the wind ${quantity} in any cell.</p>`;
  const { winds, angles } = bandsSpanned(tables.cells);
  const id = `wind-${quantity}-description`;
  return describedTable(
    id,
    description(tables, quantity),
    html`<table class="grid" aria-labelledby="${id}">
<thead><tr><th scope="col">Wind, tack</th>${angles.map((band) => html`<th scope="col">${bandText(band, degrees)}°</th>`)}</tr></thead>
${winds.map((band) => bandRows(tables, quantity, band, angles))}
</table>`,
  );
}

/** Both tables over wind speed and angle, or why there are none. Never throws. */
export function windTables(tables: CorrectionTables): Markup {
  if (tables.cells.length === 0) return html`<p>No cell of a table holds enough of this recording.</p>`;
  return html`<h3>Wind angle</h3>
${windTable(tables, "angle")}
<h3>Wind speed</h3>
${windTable(tables, "speed")}`;
}
