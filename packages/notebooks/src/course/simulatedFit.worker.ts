import { wordsOf } from "../worker/said.ts";
import { fitOfAfternoon, type SimulatedAfternoon } from "./simulatedFit.ts";

addEventListener("message", ({ data }: MessageEvent<SimulatedAfternoon>) => {
  try {
    postMessage({ kind: "fit", result: fitOfAfternoon(data) });
  } catch (error) {
    postMessage({ kind: "failed", words: wordsOf(error) });
  }
});
