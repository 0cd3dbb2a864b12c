import { wordsOf } from "../worker/said.ts";
import { type HistoryTask, inThisThread, type PlanTask } from "./bureau.ts";

addEventListener("message", ({ data }: MessageEvent<HistoryTask | PlanTask>) => {
  const work =
    data.kind === "history"
      ? inThisThread.history(data, {}).then((result) => ({ kind: "history", result }))
      : inThisThread.plan(data, {}).then((result) => ({ kind: "plan", result }));
  work.then(postMessage, (error: unknown) => postMessage({ kind: "failed", words: wordsOf(error) }));
});
