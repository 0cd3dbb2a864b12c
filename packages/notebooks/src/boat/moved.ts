import type { Answer } from "@bothtacks/core";
import {
  agreementText,
  capital,
  describedTable,
  html,
  type Markup,
  NOTHING,
  unbroken,
} from "@bothtacks/core/page";
import { element } from "../inputs/labelled.ts";
import type { Answered } from "./bench.ts";
import { type Part, whenChanged } from "./part.ts";
import type { LogsSeen } from "./workshop.ts";

const texts = ({ before, after }: Answer): readonly string[] =>
  before.map((agreement, index) => unbroken(agreementText(after?.[index] ?? agreement)));

/** The agreements with something left out beside those of the whole. */
function movedTable(answer: Answer, whole: Answer | undefined): Markup {
  const [now, all] = [texts(answer), whole && texts(whole)];
  const rows = answer.before.map(
    ({ kind }, index) =>
      html`<tr><th scope="row">${capital(kind)}</th><td class="number">${now[index]!}</td>${all ? html`<td class="number">${all[index]!}</td>` : NOTHING}</tr>`,
  );
  return describedTable(
    "moved-description",
    "What that does to the three agreements after correction, with 95 % intervals.",
    html`<table class="moved" aria-labelledby="moved-description">
<thead><tr><th scope="col">True wind</th><th scope="col" class="number">without them</th>${all ? html`<th scope="col" class="number">with all</th>` : NOTHING}</tr></thead>
<tbody>${rows}</tbody></table>`,
  );
}

const isWhole = ({ leftOut: { legs, turns } }: Answered): boolean => legs.length + turns.length === 0;

/** The direction between tacks as it stands now, in a line. Never throws. */
export const nowWords = ({ calibrated: { answer } }: Answered): string =>
  answer.after
    ? unbroken(`The wind across tacks after correction: ${agreementText(answer.after[0])}.`)
    : "No correction could be found.";

/** How leaving out has moved the answer; nothing where nothing is left out. */
export function movedPart(): Part {
  const place = element("div", { hidden: true });
  let whole: { readonly of: LogsSeen; readonly answer: Answer } | undefined;
  return {
    element: place,
    update: whenChanged(
      ({ answered }) => answered,
      (answered) => {
        place.hidden = answered === undefined || isWhole(answered);
        if (answered === undefined) return;
        const { calibrated, summary } = answered;
        if (isWhole(answered)) whole = { of: summary, answer: calibrated.answer };
        else
          place.innerHTML = movedTable(
            calibrated.answer,
            whole?.of === summary ? whole.answer : undefined,
          ).markup;
      },
    ),
  };
}
