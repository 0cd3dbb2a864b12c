import type { Page } from "../contract.ts";
import { element } from "../inputs/labelled.ts";
import type { Bench } from "./bench.ts";
import { wordsOf } from "./messages.ts";
import { type Part, whenChanged } from "./part.ts";
import { save } from "./save.ts";
import { ANSWER_FILES, FILE_PURPOSES } from "./saved.ts";

/** The files to take along. */
export function downloads(bench: Bench, page: Page): Part {
  const trouble = element("p", { role: "alert" });
  const saving = async (name: (typeof ANSWER_FILES)[number]): Promise<void> => {
    trouble.textContent = "";
    try {
      const text = await bench.fileText(name, page.plotlySource);
      if (text !== undefined) save(name, text);
    } catch (error) {
      trouble.textContent = `${name} could not be made: ${wordsOf(error)}`;
    }
  };
  const files = ANSWER_FILES.map((name) => {
    const button = element("button", { type: "button" }, `Save ${name}`);
    button.addEventListener("click", () => void saving(name));
    return element("li", {}, button, " ", element("span", { class: "quiet" }, FILE_PURPOSES[name]));
  });
  const kept = element("span", { class: "quiet", role: "status" });
  const keep = element("button", { type: "button" }, "Keep in this browser");
  keep.addEventListener("click", async () => {
    const text = await bench.fileText("calibration.json", page.plotlySource);
    if (text === undefined) return;
    const hasRoom = bench.keepCalibration({ name: "calibration.json", text });
    kept.textContent = hasRoom
      ? "Kept."
      : "This browser has no room, or does not let the page keep anything.";
  });
  const keeping = element(
    "li",
    {},
    keep,
    " ",
    element(
      "span",
      { class: "quiet" },
      "the calibration, for the page Between regattas: to compare it with the next, and to plan the next sail for your time and wind",
    ),
    kept,
  );
  const section = element(
    "section",
    { hidden: true, class: "take-along" },
    element("h2", { id: "files" }, "To take along"),
    element("ul", { class: "files" }, ...files, keeping),
    trouble,
  );
  return {
    element: section,
    update: whenChanged(
      ({ answered }) => answered,
      (answered) => {
        section.hidden = answered?.calibrated.tables === undefined;
        kept.textContent = "";
      },
    ),
  };
}
