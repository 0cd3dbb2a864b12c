import type { Page, Undraw, View } from "../contract.ts";
import { element } from "../inputs/labelled.ts";
import type { Bench, Demo } from "./bench.ts";
import { boatForm } from "./boatForm.ts";
import { downloads } from "./downloads.ts";
import { opening } from "./opening.ts";
import type { Part } from "./part.ts";
import { progress } from "./progress.ts";
import { advicePart, answerPart, cautionsPart, logPart, picturePart } from "./results.ts";
import { STYLE } from "./style.ts";
import { timeline } from "./timeline.ts";

const parts = (bench: Bench, page: Page, demo: () => Promise<Demo>): readonly Part[] => [
  opening(bench, demo),
  boatForm(bench),
  progress(bench),
  answerPart(),
  picturePart(page),
  timeline(bench),
  advicePart(),
  downloads(bench, page),
  logPart(page),
  cautionsPart(),
];

/** Draws the bench, and keeps it up to date until it is undrawn. */
function drawBench(place: HTMLElement, page: Page, bench: Bench, demo: () => Promise<Demo>): Undraw {
  const all = parts(bench, page, demo);
  const style = element("style", {}, STYLE);
  place.classList.add("bench");
  place.append(style, ...all.map((part) => part.element));
  const update = (): void => {
    for (const part of all) part.update(bench.state);
    place.ariaBusy = String(bench.state.doing !== undefined);
  };
  const silence = bench.listen(update);
  update();
  return () => {
    silence();
    bench.callOff();
    for (const part of all) part.undraw?.();
  };
}

/** The bench on the page. */
export const boatView = (bench: Bench, demo: () => Promise<Demo>): View => ({
  draw: (place, page) => drawBench(place, page, bench, demo),
});
