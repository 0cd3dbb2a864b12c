import { doneTask } from "./doneTask.ts";
import type { Task } from "./messages.ts";

addEventListener("message", ({ data }: MessageEvent<Task>) => {
  void doneTask(data, (said) => postMessage(said));
});
