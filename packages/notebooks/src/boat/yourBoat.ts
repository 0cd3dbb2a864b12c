import type { View } from "../contract.ts";
import { Bench, type Demo } from "./bench.ts";
import BoatWorker from "./boat.worker.ts?worker&inline";
import { boatView } from "./boatView.ts";
import { choicesOn } from "./choices.ts";
import { demo } from "./demo.ts";
import { inThisThread } from "./holding.ts";
import { inWorker } from "./inWorker.ts";
import type { Workshop } from "./workshop.ts";

export type { AnswerSeen } from "./workshop.ts";

/** The bench as a cell has it: what it does, and how it is drawn. */
export interface YourBoat extends View {
  readonly bench: Bench;
  /** The recording that comes with it. */
  readonly demo: () => Promise<Demo>;
}

/**
 * The navigator's bench. On a page its long work is done in a worker, made when first needed, and its choices are kept in the
 * browser; in Node it does its work itself and keeps nothing.
 */
export function yourBoat(): YourBoat {
  if (typeof document === "undefined") {
    const bench = new Bench(inThisThread());
    return { bench, demo, ...boatView(bench, demo) };
  }
  const workshop = inWorker(() => new BoatWorker());
  const bench = new Bench(
    workshop,
    choicesOn(() => localStorage),
  );
  const { draw } = boatView(bench, demo);
  return {
    bench,
    demo,
    draw: (place, page) => {
      const undraw = draw(place, page);
      return () => {
        undraw?.();
        workshop.close();
      };
    },
  };
}

/** Where a cell has logs read and answered: in a worker on a page, made when first needed; in Node at once. One task at a time. */
export const logWorkshop = (): Workshop =>
  typeof document === "undefined" ? inThisThread() : inWorker(() => new BoatWorker());
