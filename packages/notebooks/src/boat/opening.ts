import type { Undraw } from "../contract.ts";
import { element } from "../inputs/labelled.ts";
import type { Bench, Demo } from "./bench.ts";
import type { Part } from "./part.ts";

/** Files in the order of their names, as days have them; a browser hands them over in any. */
const inOrder = (files: Iterable<File>): readonly File[] =>
  [...files].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));

const hasFiles = ({ dataTransfer }: DragEvent): boolean => dataTransfer?.types.includes("Files") ?? false;

/**
 * Takes files that are dropped anywhere on the page, since a browser leaves the page for a file that is dropped beside the box.
 *
 * @param box shows that they would be taken
 */
function takesDrops(box: HTMLElement, take: (files: readonly File[]) => void): Undraw {
  const over = (dragged: DragEvent): void => {
    if (!hasFiles(dragged)) return;
    dragged.preventDefault();
    box.classList.add("over");
  };
  const away = ({ relatedTarget }: DragEvent): void => {
    if (relatedTarget === null) box.classList.remove("over");
  };
  const drop = (dropped: DragEvent): void => {
    if (!hasFiles(dropped)) return;
    dropped.preventDefault();
    box.classList.remove("over");
    take([...(dropped.dataTransfer?.files ?? [])]);
  };
  document.addEventListener("dragenter", over);
  document.addEventListener("dragover", over);
  document.addEventListener("dragleave", away);
  document.addEventListener("drop", drop);
  return () => {
    document.removeEventListener("dragenter", over);
    document.removeEventListener("dragover", over);
    document.removeEventListener("dragleave", away);
    document.removeEventListener("drop", drop);
  };
}

/** Where a log is taken: one's own, dropped or chosen, or the one that comes with the page. */
export function opening(bench: Bench, demo: () => Promise<Demo>): Part {
  const take = (files: readonly File[]): void => {
    if (files.length > 0) void bench.open(inOrder(files));
  };
  const chooser = element("input", { type: "file", multiple: true, class: "unseen", tabindex: -1 });
  chooser.setAttribute("aria-label", "Log files");
  chooser.addEventListener("change", () => {
    const files = [...(chooser.files ?? [])];
    // so that choosing the same file again is a change
    chooser.value = "";
    take(files);
  });
  const choose = element("button", { type: "button", class: "main" }, "Choose log files");
  choose.addEventListener("click", () => chooser.click());
  const tryDemo = element("button", { type: "button" }, "Use the demo recording");
  tryDemo.addEventListener("click", () => void bench.openDemo(demo));
  const box = element(
    "div",
    { class: "drop opening" },
    element("p", { class: "doors" }, choose, " or drop them here. No log yet? ", tryDemo),
    element(
      "p",
      { class: "quiet" },
      "NMEA 0183 as text, or the same as gzip. Several files are taken as one recording of one boat, made with the same settings. They are read on this machine and go nowhere.",
    ),
    chooser,
  );
  return { element: box, update: () => {}, undraw: takesDrops(box, take) };
}
