import type { Notebook } from "../run/notebook.ts";
import { Session } from "../run/session.ts";
import type { Stage } from "../run/stage.ts";
import { CellPlace } from "./cellPlace.ts";
import { Figures } from "./figures.ts";
import { plotlySource } from "./plotlySource.ts";

/** The places that the Markdown left for the cells, by the cells' numbers. */
function placesOf({ cells }: Notebook): readonly CellPlace[] {
  const { draw, prepare } = new Figures();
  const page = { drawFigure: draw, prepareFigures: prepare, plotlySource };
  return cells.map(({ line }, index) => {
    const place = document.querySelector<HTMLElement>(`[data-cell="${index}"]`);
    if (!place) throw new Error(`The page has no place for the cell of line ${line}.`);
    place.replaceChildren();
    return new CellPlace(place, line, page);
  });
}

/** The switch in the page's head shows and hides the code of the cells. */
function connectCodeSwitch(): void {
  const control = document.querySelector<HTMLInputElement>("#with-code");
  control?.addEventListener("change", () => document.body.classList.toggle("with-code", control.checked));
}

/** Runs a notebook on the page that was made from it. */
export function openNotebook(notebook: Notebook): void {
  const places = placesOf(notebook);
  const stage: Stage = {
    begin: (cell) => places[cell]?.begin(),
    show: (cell, shown) => {
      for (const one of shown) places[cell]?.show(one);
    },
    ask: (cell, name, input, value) =>
      places[cell]?.ask(input, (answer) => session.answer(name, answer), value),
    end: (cell, outcome) => places[cell]?.end(outcome),
  };
  const session = new Session(notebook, stage);
  connectCodeSwitch();
  session.start();
}
