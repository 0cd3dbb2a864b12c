import {
  capital,
  EXPECTATION_NOTE,
  html,
  type Markup,
  nothingToPlan,
  PLAN_TITLES,
  type PlanText,
  planSections,
  titledList,
  unbroken,
} from "@bothtacks/core/page";
import { type Part, whenChanged } from "../boat/part.ts";
import { element } from "../inputs/labelled.ts";
import type { AlbumState } from "./album.ts";
import { rowsTable } from "./rowsTable.ts";

const planMarkup = (text: PlanText): Markup => {
  const { head, steps, tables, hardlyTold, cautions } = planSections(text);
  return html`<p class="conclusion">${unbroken(head)}</p>
<h3>${PLAN_TITLES.steps}</h3><ol class="words">${steps.map((step) => html`<li>${unbroken(step)}</li>`)}</ol>
<h3>${PLAN_TITLES.tables}</h3>${tables.map((rows, index) => rowsTable(`plan-${index}`, index === 0 ? EXPECTATION_NOTE : "Half the 95 % interval of each setting.", rows))}
${titledList(PLAN_TITLES.hardlyTold, hardlyTold)}${titledList(PLAN_TITLES.cautions, cautions)}`;
};

/** The plan, once there is one. */
export function plannedPart(): Part<AlbumState> {
  const place = element("div", { role: "region", "aria-label": "The plan", "aria-live": "polite" });
  return {
    element: place,
    update: whenChanged<AlbumState["planned"], AlbumState>(
      ({ planned }) => planned,
      (planned) => {
        place.innerHTML =
          planned === undefined
            ? ""
            : planned.text
              ? planMarkup(planned.text).markup
              : html`<p class="conclusion">${capital(nothingToPlan(Math.round(planned.wish.seconds / 60)))}.</p>`
                  .markup;
      },
    ),
  };
}
