import { capital, duration, unbroken } from "@bothtacks/core/page";
import { type Part, whenChanged } from "../boat/part.ts";
import { fileDoor } from "../inputs/fileDoor.ts";
import { element } from "../inputs/labelled.ts";
import { type Album, type AlbumState, dayOf, type Given, namesOf } from "./album.ts";

type AlbumPart = Part<AlbumState>;

const OPENING =
  "calibration.json of one boat, from the command line or from the page Your boat: two or more of different days to compare, one to plan the next sail. They are read on this machine and go nowhere.";

/** Where calibrations are taken. */
export function opening(album: Album, examples: () => Promise<readonly File[]>): AlbumPart {
  const take = (files: readonly File[]): void => void album.add(files);
  const { choose, chooser, takesDrops } = fileDoor(
    "Choose calibrations",
    "Calibration files",
    take,
    ".json,application/json",
  );
  const tryExamples = element("button", { type: "button" }, "Use three of an invented boat");
  tryExamples.addEventListener("click", async () => take(await examples()));
  const box = element(
    "div",
    { class: "drop opening" },
    element("p", { class: "doors" }, choose, " or drop them here. None yet? ", tryExamples),
    element("p", { class: "quiet" }, OPENING),
    chooser,
  );
  return { element: box, update: () => {}, undraw: takesDrops(box) };
}

function aboutOf({ calibration }: Given): string {
  const { recording, boat, settings } = calibration;
  const sailed = unbroken(`sailed ${dayOf(calibration)} for ${duration(recording.end - recording.start)}`);
  return `${boat.name}, ${sailed}, ${settings.base === "unknown corrections" ? "active corrections not known" : "active corrections known"}`;
}

/** The calibrations that are there, each with a way out. */
export function list(album: Album): AlbumPart {
  const rows = element("ul", { class: "files" });
  const trouble = element("div", { class: "trouble", role: "alert", hidden: true });
  const clear = element("button", { type: "button" }, "Clear them all");
  clear.addEventListener("click", () => void album.clear());
  const kept = element("span", { class: "quiet" });
  const keeping = element("p", { class: "doors" }, clear, kept);
  const fill = whenChanged<readonly Given[], AlbumState>(
    ({ given }) => given,
    (given) => {
      rows.replaceChildren(
        ...given.map((one, place) => {
          const name = namesOf(given)(one.calibration);
          const remove = element("button", { type: "button", "aria-label": `Take out ${name}` }, "Take out");
          remove.addEventListener("click", () => void album.remove(place));
          return element(
            "li",
            {},
            element(
              "span",
              {},
              element("strong", {}, name),
              " ",
              element("span", { class: "quiet" }, aboutOf(one)),
            ),
            remove,
          );
        }),
      );
    },
  );
  return {
    element: element("div", { class: "given" }, rows, trouble, keeping),
    update: (state) => {
      fill(state);
      keeping.hidden = state.given.length === 0;
      kept.textContent = state.isKept
        ? "This browser keeps them for your next visit, until you clear them."
        : "This browser has no room for them: they are gone when you leave.";
      const words = [...state.refused, ...(state.trouble === undefined ? [] : [capital(state.trouble)])];
      trouble.hidden = words.length === 0;
      trouble.replaceChildren(...words.map((one) => element("p", {}, `${one}.`.replace("..", "."))));
    },
  };
}

/** The user's word, which counts where nobody said what was active. */
export function keyedInPart(album: Album): AlbumPart {
  const box = element("input", { type: "checkbox" });
  box.addEventListener("change", () => void album.setNothingKeyedIn(box.checked));
  const label = element(
    "label",
    { class: "option" },
    box,
    "Nothing was keyed in between these recordings (as --nothing-keyed-in)",
  );
  return {
    element: label,
    update: ({ given, nothingKeyedIn }) => {
      box.checked = nothingKeyedIn;
      label.hidden =
        given.length < 2 ||
        given.every(({ calibration: { settings } }) => settings.base === "sensors without corrections");
    },
  };
}
