import type { History } from "@bothtacks/core";
import {
  COMPARISON_TITLES,
  comparisonWords,
  counted,
  html,
  levelSentence,
  listed,
  type Markup,
  NOTHING,
  SETTINGS_NOTE,
  sentenceList,
  titledList,
  unbroken,
} from "@bothtacks/core/page";
import { headed, type Part, whenChanged } from "../boat/part.ts";
import { element } from "../inputs/labelled.ts";
import { type AlbumState, type Given, namesOf } from "./album.ts";
import { historyStrips } from "./historyStrips.ts";
import { rowsTable } from "./rowsTable.ts";

const STRIPS_NOTE =
  "Settings in all on each day, with 95 % intervals; an open circle was not learnt. Shaded: a move that stays within may go unseen, though it need not; of moves that just leave the band 80 in 100 show.";

function comparedMarkup(history: History, given: readonly Given[]): Markup {
  const nameOf = namesOf(given);
  if (history.status === "refused")
    return headed(
      "moved",
      "What has moved",
      html`<p class="conclusion">These cannot be compared.</p><p>${listed([nameOf(history.then), nameOf(history.now)])}: ${history.reason}.</p>`,
    );
  const pairs = history.pairs.map((pair) => comparisonWords(pair, nameOf));
  const calibrations = given.map(({ calibration }) => calibration);
  return headed(
    "moved",
    "What has moved",
    html`${pairs.map(({ verdict, moved }) => html`<p class="conclusion">${unbroken(verdict)}</p>${sentenceList(moved)}`)}
<p class="quiet">${levelSentence(pairs.length)}</p>
<h2 id="history">The history</h2><p class="quiet">${STRIPS_NOTE}</p>${historyStrips(calibrations, history.pairs)}
<h2 id="settings">${COMPARISON_TITLES.settings}</h2>${pairs.map(({ verdict, settings, untold, notes }, index) => html`<details${index === pairs.length - 1 ? html` open` : NOTHING}><summary>${verdict.replace(/: [^:]*$/, "")}</summary>${settings.length > 0 ? rowsTable(`settings-${index}`, SETTINGS_NOTE, settings) : NOTHING}${titledList(COMPARISON_TITLES.untold, untold)}${titledList(COMPARISON_TITLES.notes, notes)}</details>`)}`,
  );
}

/** What has moved: verdicts, the history drawn, the tables. */
export function comparedPart(): Part<AlbumState> {
  const section = element("section", { hidden: true });
  const said = element("p", { class: "unseen", role: "status" });
  const place = element("div");
  section.append(said, place);
  return {
    element: section,
    update: whenChanged<History | undefined, AlbumState>(
      ({ history }) => history,
      (history, { given }) => {
        section.hidden = history === undefined;
        place.innerHTML = history ? comparedMarkup(history, given).markup : "";
        said.textContent = history ? `Compared: ${counted(given.length, "calibration")}.` : "";
      },
    ),
  };
}
