import { fileDoor } from "../inputs/fileDoor.ts";
import { element } from "../inputs/labelled.ts";
import type { Bench, Demo } from "./bench.ts";
import type { Part } from "./part.ts";

/** Files in the order of their names, as days have them; a browser hands them over in any. */
const inOrder = (files: Iterable<File>): readonly File[] =>
  [...files].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));

/** Where a log is taken: one's own, dropped or chosen, or the one that comes with the page. */
export function opening(bench: Bench, demo: () => Promise<Demo>): Part {
  const take = (files: readonly File[]): void => {
    if (files.length > 0) void bench.open(inOrder(files));
  };
  const { choose, chooser, takesDrops } = fileDoor("Choose log files", "Log files", take);
  const tryDemo = element("button", { type: "button" }, "Use the demo recording");
  tryDemo.addEventListener("click", () => void bench.openDemo(demo));
  const box = element(
    "div",
    { class: "drop opening" },
    element("p", { class: "doors" }, choose, " or drop them here. No log yet? ", tryDemo),
    element(
      "p",
      { class: "quiet" },
      "NMEA 0183, NMEA 2000 as text, Signal K deltas or columns (CSV), or any of them as gzip. Several files are taken as one recording of one boat, made with the same settings; a mapping file among them says what columns hold. They are read on this machine and go nowhere.",
    ),
    chooser,
  );
  return { element: box, update: () => {}, undraw: takesDrops(box) };
}
