import type { Answer } from "../answer.ts";
import { html, type Markup } from "../markup.ts";
import { titledList } from "./parts.ts";

const nothingToKeyIn = ({ fit }: Answer): string =>
  fit.status === "solved"
    ? "Key in nothing: what stands in the instruments agrees with this recording, as far as it can tell."
    : "Key in nothing: this recording gives no correction.";

/** The plain words: what to key in, what to leave alone, what could not be told, what to sail next. Never throws. */
export function whatToDo(answer: Answer): Markup {
  const { words: said } = answer;
  const keyIn = said.keyIn.length > 0 ? said.keyIn : [nothingToKeyIn(answer)];
  return html`<div class="to-do">${titledList("Key in", keyIn)}${titledList("Leave alone", said.leaveAlone)}${titledList("What the data could not tell", said.couldNotTell)}${titledList("Sail next", said.sailNext)}${titledList("Notes", said.notes)}</div>`;
}
