import type { View } from "@bothtacks/notebooks";
import CountingWorker from "./countingWorker.ts?worker&inline";

/** Counts in a worker, and says how far it came. */
export const countingView = (to: number): View => ({
  draw: (place) => {
    const worker = new CountingWorker();
    worker.onmessage = ({ data }: MessageEvent<number>) => {
      place.textContent = `Counted to ${data}.`;
    };
    worker.postMessage(to);
    return () => worker.terminate();
  },
});
