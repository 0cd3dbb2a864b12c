import type { Page, Undraw, View } from "../contract.ts";
import { element } from "../inputs/labelled.ts";
import { painted } from "../page/painted.ts";
import type { Bench, BenchState, Demo } from "./bench.ts";
import { boatForm } from "./boatForm.ts";
import { downloads } from "./downloads.ts";
import { opening } from "./opening.ts";
import type { Part } from "./part.ts";
import { progress } from "./progress.ts";
import { advicePart, answerPart, cautionsPart, logPart, picturePart } from "./results.ts";
import { STYLE } from "./style.ts";
import { timeline } from "./timeline.ts";

/** What is asked and told while work is done. */
const asking = (bench: Bench, demo: () => Promise<Demo>): readonly Part[] => [
  opening(bench, demo),
  boatForm(bench),
  progress(bench),
];

/** What came of it. */
const telling = (bench: Bench, page: Page): readonly Part[] => [
  answerPart(),
  picturePart(page),
  timeline(bench),
  advicePart(),
  downloads(bench, page),
  logPart(page),
  cautionsPart(),
];

/** A part that took longer than this to write and lay out (ms) is painted before the next one is written: an answer is some thousand elements. */
const AT_ONCE = 4;

/** Brings a part up to date, and returns how long that took, ms. Its places are found here, not when a figure asks for the size of its own. */
function updated({ element: drawn, update }: Part, state: BenchState): number {
  const begun = performance.now();
  update(state);
  drawn.getBoundingClientRect();
  return performance.now() - begun;
}

/** Parts that are brought up to date one after the other, so that the page answers in between. */
class InTurn {
  private isBusy = false;

  /** @param rested is called when all parts show the bench as it is */
  constructor(
    private readonly parts: readonly Part[],
    private readonly bench: Bench,
    private readonly rested: () => void,
  ) {}

  /** A state that comes meanwhile is shown before this ends. */
  async update(): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    let shown: BenchState | undefined;
    try {
      while (shown !== this.bench.state) {
        shown = this.bench.state;
        for (const part of this.parts) {
          if (updated(part, this.bench.state) > AT_ONCE) await painted();
        }
      }
    } finally {
      this.isBusy = false;
    }
    this.rested();
  }
}

/** Draws the bench, and keeps it up to date until it is undrawn. */
function drawBench(place: HTMLElement, page: Page, bench: Bench, demo: () => Promise<Demo>): Undraw {
  const [asked, told] = [asking(bench, demo), telling(bench, page)];
  const all = [...asked, ...told];
  place.classList.add("bench");
  place.append(element("style", {}, STYLE), ...all.map((part) => part.element));
  const turns = new InTurn(told, bench, () => {
    place.ariaBusy = String(bench.state.doing !== undefined);
  });
  const update = (): void => {
    for (const part of asked) part.update(bench.state);
    place.ariaBusy = "true";
    void turns.update();
  };
  const silence = bench.listen(update);
  update();
  // while logs are being chosen: reading them keeps the machine busy
  page.prepareFigures();
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
