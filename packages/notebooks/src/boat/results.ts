import { type Boat, WITHOUT_NAME } from "@bothtacks/core";
import {
  agreementCards,
  CAUTIONS,
  type CheckedRecording,
  clock,
  conclusion,
  deviationTable,
  gapSentences,
  html,
  listed,
  type Markup,
  NOTHING,
  numbersToKeyIn,
  pairWords,
  recordingSection,
  recordingTimeline,
  sentenceList,
  sourceWords,
  titledList,
  unbroken,
  whatToDo,
  windDirectionFigure,
} from "@bothtacks/core/page";
import type { Page } from "../contract.ts";
import { element } from "../inputs/labelled.ts";
import type { Answered } from "./bench.ts";
import { BOAT_FORM } from "./boatForm.ts";
import { leftOutCount } from "./legsAndTurns.ts";
import { headed, type Part, whenChanged } from "./part.ts";
import { shearByDay } from "./shearByDay.ts";
import type { AnswerSeen, LogsSeen } from "./workshop.ts";

const whatIsLeftOut = ({ leftOut }: Answered): Markup =>
  leftOut.legs.length + leftOut.turns.length === 0
    ? NOTHING
    : html`<p class="quiet">${leftOutCount(leftOut)}</p>`;

const CONTENTS: readonly (readonly [id: string, title: string, needs?: "legs" | "answer"])[] = [
  ["wind", "The wind", "legs"],
  ["legs", "Legs and turns", "legs"],
  ["to-do", "What to do"],
  ["numbers", "The numbers to key in", "answer"],
  ["files", "To take along", "answer"],
  ["log", "What is in the log"],
];

/** Ways to the parts below. */
const contents = ({ calibrated: { tables }, summary }: Answered): Markup =>
  html`<nav class="contents" aria-label="Parts of the answer"><ul>${CONTENTS.filter(([, , needs]) => (needs !== "answer" || tables) && (needs !== "legs" || summary.sailing.legs.length > 0)).map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>`;

/** Which recording it is of. */
const recordingLine = ({ summary: { recording } }: Answered): Markup =>
  html`<p class="quiet recording">${listed(recording.files)}, ${clock(recording.start)} to ${clock(recording.end)}</p>`;

/** What the boat file has not told and the numbers depend on. */
function untold({ computerIs, settings }: Boat): Markup {
  const missing = [
    ...(computerIs === "assumed" ? ["what the computer on board does"] : []),
    ...(settings.base === "unknown corrections"
      ? ["which corrections were active when the log was made"]
      : []),
  ];
  return missing.length === 0
    ? NOTHING
    : html`<p>Not told yet: ${listed(missing)}. The numbers to key in depend on it; tell it in <a href="#${BOAT_FORM}">the boat file</a> above.</p>`;
}

const heads = ({ calibrated: { answer, boat } }: Answered): Markup =>
  html`<h2 id="answer">The answer${boat.name === WITHOUT_NAME ? "" : ` for ${boat.name}`}</h2><p class="conclusion">${unbroken(conclusion(answer))}</p>`;

/** A way to the boat form opens it. */
function openBoatForm({ target }: Event): void {
  if (!(target instanceof Element) || target.closest(`a[href="#${BOAT_FORM}"]`) === null) return;
  document.querySelector(`#${BOAT_FORM}`)?.setAttribute("open", "");
}

/** A section that is there once something is answered, written anew when what it rests on is another. */
function writtenPart(restsOn: (answered: Answered) => unknown, write: (answered: Answered) => Markup): Part {
  const section = element("section", { hidden: true });
  return {
    element: section,
    update: whenChanged(
      ({ answered }) => answered && restsOn(answered),
      (_, { answered }) => {
        section.hidden = answered === undefined;
        if (answered) section.innerHTML = write(answered).markup;
      },
    ),
  };
}

/** What was found, in short, and the three agreements. */
export function answerPart(): Part {
  const part = writtenPart(
    (answered) => answered,
    (answered) =>
      html`${heads(answered)}${recordingLine(answered)}${answered.calibrated.tables ? untold(answered.boat) : NOTHING}${whatIsLeftOut(answered)}${agreementCards(answered.calibrated.answer)}${contents(answered)}`,
  );
  part.element.addEventListener("click", openBoatForm);
  return part;
}

/** Whether any wind was seen on steady legs. */
const hasWind = ({ calibrated }: Answered): boolean => calibrated.answer.track.time.length > 0;

/** The picture of the wind coming to rest. */
export function picturePart(page: Page): Part {
  const place = element("div");
  const section = element("section", { hidden: true }, element("h2", { id: "wind" }, "The wind"), place);
  let undraw = (): void => {};
  return {
    element: section,
    update: whenChanged(
      ({ answered }) => answered,
      (answered) => {
        section.hidden = answered === undefined || !hasWind(answered);
        if (answered && !section.hidden)
          undraw = page.drawFigure(place, windDirectionFigure(answered.calibrated.answer));
      },
    ),
    undraw: () => undraw(),
  };
}

const numbers = ({ tables }: AnswerSeen): Markup =>
  tables
    ? headed(
        "numbers",
        "The numbers to key in",
        html`<div class="beside-in-print">${numbersToKeyIn(tables)}<div class="card"><h3>Compass</h3>${deviationTable(tables)}</div></div>`,
      )
    : NOTHING;

/** What to do, and the tables for the boat's own computer. */
export const advicePart = (): Part =>
  writtenPart(
    (answered) => answered,
    ({ calibrated }) =>
      html`${headed("to-do", "What to do", html`<div class="beside-in-print">${whatToDo(calibrated.answer)}${calibrated.tables ? shearByDay(calibrated.answer.track) : NOTHING}</div>`)}${numbers(calibrated)}`,
  );

/** What a log holds, as `check` tells it. */
const checkOf = ({ recording, sailing, health }: LogsSeen): CheckedRecording => ({
  recording,
  ...sailing,
  health,
});

function logMarkup(summary: LogsSeen): Markup {
  const check = checkOf(summary);
  const { can, cannot } = summary.evidence;
  return headed(
    "log",
    "What is in the log",
    html`${recordingSection(check)}${titledList("What stands out", sourceWords(check))}${titledList("Sensors of one quantity beside each other", pairWords(check))}${titledList("Gaps in the whole log", gapSentences(check.health.gaps))}${titledList("It can calibrate", can)}${titledList("It cannot calibrate", cannot)}`,
  );
}

/** What the logs held, sensor by sensor through time and in words. */
export function logPart(page: Page): Part {
  const place = element("div");
  const section = element("section", { hidden: true, class: "screen-only" });
  let undraw = (): void => {};
  return {
    element: section,
    update: whenChanged(
      ({ answered }) => answered?.summary,
      (summary) => {
        section.hidden = summary === undefined;
        if (summary === undefined) return;
        section.innerHTML = logMarkup(summary).markup;
        section.querySelector("h2")?.after(place);
        undraw = page.drawFigure(place, recordingTimeline(checkOf(summary)));
      },
    ),
    undraw: () => undraw(),
  };
}

/** What to keep in mind. */
export function cautionsPart(): Part {
  const section = element("section", { hidden: true });
  section.innerHTML = headed("cautions", "Cautions", sentenceList(CAUTIONS)).markup;
  return {
    element: section,
    update: ({ answered }) => {
      section.hidden = answered === undefined;
    },
  };
}
