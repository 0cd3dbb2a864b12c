import { computerWords } from "../computerWords.ts";
import { html, type Markup } from "../markup.ts";
import type { CorrectionTables } from "../tables.ts";
import { titledList } from "./parts.ts";
import { settingsTable, workedTable } from "./settingsTable.ts";
import { windTables } from "./windTable.ts";

/** The settings, one reading of each tack worked through them, and the tables over wind speed and angle. Never throws. */
export const numbersToKeyIn = (
  tables: CorrectionTables,
): Markup => html`<div class="to-key-in"><p>${computerWords(tables)} What cannot be keyed in is held at what that computer does. The same numbers are in tables.csv.</p>
${settingsTable(tables)}
${workedTable(tables)}
${titledList("Rounded, and checked afterwards", tables.checks)}
${windTables(tables)}</div>`;
