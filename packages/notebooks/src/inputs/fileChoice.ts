import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

export interface FileChoiceOptions {
  readonly label: string;
  /** Endings or kinds, as a file input takes them; all by default. */
  readonly accept?: string;
  /** Whether several can be chosen at once. */
  readonly many?: boolean;
}

function onDrop(place: HTMLElement, take: (files: readonly File[]) => void): void {
  for (const event of ["dragenter", "dragover"] as const)
    place.addEventListener(event, (dragged) => {
      dragged.preventDefault();
      place.classList.add("over");
    });
  place.addEventListener("dragleave", () => place.classList.remove("over"));
  place.addEventListener("drop", (dropped) => {
    dropped.preventDefault();
    place.classList.remove("over");
    take([...(dropped.dataTransfer?.files ?? [])]);
  });
}

/** Files of the reader's own, chosen or dropped; none at first. They do not leave the machine. Never throws. */
export const fileChoice = ({ label, accept, many = false }: FileChoiceOptions): Input<readonly File[]> => ({
  label,
  initial: [],
  draw: (place, change) => {
    const control = element("input", { type: "file", accept: accept ?? false, multiple: many });
    const take = (files: readonly File[]): void => {
      if (files.length > 0) change(many ? files : files.slice(0, 1));
    };
    control.addEventListener("change", () => {
      const files = [...(control.files ?? [])];
      // so that choosing the same file again is a change
      control.value = "";
      take(files);
    });
    const box = element("div", { class: "drop" }, labelled(label, control));
    onDrop(box, take);
    place.append(box);
    return undefined;
  },
});
