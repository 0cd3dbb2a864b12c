import type { Undraw } from "../contract.ts";
import { element } from "./labelled.ts";

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

/** A way in for files. */
export interface FileDoor {
  readonly choose: HTMLButtonElement;
  /** The browser's own control, which the button stands for. */
  readonly chooser: HTMLInputElement;
  /** Takes what is dropped anywhere on the page; the box shows that it would be. */
  readonly takesDrops: (box: HTMLElement) => Undraw;
}

/**
 * A button that chooses files; files may be dropped as well.
 *
 * @param words of the button
 * @param name what the files are
 * @param kinds as a file input takes them; all by default
 */
export function fileDoor(
  words: string,
  name: string,
  take: (files: readonly File[]) => void,
  kinds?: string,
): FileDoor {
  const chooser = element("input", {
    type: "file",
    multiple: true,
    class: "unseen",
    tabindex: -1,
    accept: kinds ?? false,
    "aria-label": name,
  });
  chooser.addEventListener("change", () => {
    const files = [...(chooser.files ?? [])];
    // so that choosing the same file again is a change
    chooser.value = "";
    take(files);
  });
  const choose = element("button", { type: "button", class: "main" }, words);
  choose.addEventListener("click", () => chooser.click());
  return { choose, chooser, takesDrops: (box) => takesDrops(box, take) };
}
