import { cacheFolder } from "../node/cacheFolder.ts";
import type { Surroundings } from "./command.ts";
import { run } from "./run.ts";

/** Whoever reads our output may have seen enough (`… | head`): that is no failure. */
function endQuietlyOnClosedPipe(error: Error & { readonly code?: string }): void {
  if (error.code === "EPIPE") process.exit();
  throw error;
}

/**
 * Runs the command line on the process's own streams; Ctrl-C stops it with nothing written.
 *
 * @returns the exit status
 */
export async function runInTerminal(args: readonly string[]): Promise<number> {
  const abort = new AbortController();
  const stop = () => abort.abort();
  process.stdout.on("error", endQuietlyOnClosedPipe);
  process.once("SIGINT", stop).once("SIGTERM", stop);
  const surroundings: Surroundings = {
    print: (text) => process.stdout.write(text),
    complain: (text) => process.stderr.write(text),
    progress: process.stderr.isTTY ? (text) => process.stderr.write(text) : undefined,
    signal: abort.signal,
    cacheFolder: cacheFolder(process.env, process.platform),
  };
  try {
    return await run(args, surroundings);
  } finally {
    process.off("SIGINT", stop).off("SIGTERM", stop);
  }
}
