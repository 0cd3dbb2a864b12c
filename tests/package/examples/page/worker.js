// Reads the log; nothing leaves the machine.
import { summariseLogs, UNKNOWN_BOAT, UnusableLog } from "@bothtacks/core";

addEventListener("message", async ({ data: file }) => {
  const log = {
    name: file.name,
    bytes: file.size,
    chunks: { [Symbol.asyncIterator]: () => chunksOf(file) },
  };
  const progress = (what, share) => postMessage({ progress: `${what}: ${Math.round(100 * share)} %` });
  try {
    const { sailing } = await summariseLogs([log], UNKNOWN_BOAT, { progress });
    postMessage({ legs: sailing.legs });
  } catch (error) {
    if (!(error instanceof UnusableLog)) throw error;
    postMessage({ trouble: error.message });
  }
});

/** A stream's chunks, by its reader: not every browser iterates streams. */
async function* chunksOf(file) {
  const reader = file.stream().getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    yield value;
  }
}
