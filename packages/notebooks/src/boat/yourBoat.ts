import type { View } from "../contract.ts";
import { Bench } from "./bench.ts";
import BoatWorker from "./boat.worker.ts?worker&inline";
import { boatView } from "./boatView.ts";
import { choicesOn } from "./choices.ts";
import { demo } from "./demo.ts";
import { inWorker } from "./inWorker.ts";

/** The navigator's bench, its long work in a worker, its choices kept in the browser. Nothing is made until it is drawn. */
export const yourBoat = (): View => ({
  draw: (place, page) => {
    const workshop = inWorker(() => new BoatWorker());
    const bench = new Bench(
      workshop,
      choicesOn(() => localStorage),
    );
    const undraw = boatView(bench, demo).draw(place, page);
    return () => {
      undraw?.();
      workshop.close();
    };
  },
});
