import { describedTable, html, type Markup, NOTHING } from "@bothtacks/core/page";

/** A table of rows whose first is the head and whose first cells name the rows; below what it shows. Never throws. */
export const rowsTable = (id: string, description: string, rows: readonly (readonly string[])[]): Markup => {
  const [head = [], ...body] = rows;
  return describedTable(
    id,
    description,
    html`<table aria-labelledby="${id}"><thead><tr>${head.map((cell, index) => html`<th scope="col"${index > 0 ? html` class="number"` : NOTHING}>${cell}</th>`)}</tr></thead>
<tbody>${body.map(([name = "", ...cells]) => html`<tr><th scope="row">${name}</th>${cells.map((cell) => html`<td class="number">${cell}</td>`)}</tr>`)}</tbody></table>`,
  );
};
