import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { run } from "../../packages/core/src/cli/run.ts";

export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line within this process; nothing that is found in logs is kept. */
export const commandLine = (...args: readonly string[]): Promise<Outcome> => commandLineKeeping({}, ...args);

/** Runs the command line within this process, with a folder to keep in what is found in logs. */
export async function commandLineKeeping(
  kept: { readonly cacheFolder?: string },
  ...args: readonly string[]
): Promise<Outcome> {
  const [out, err]: [string[], string[]] = [[], []];
  const status = await run(args, {
    print: (text) => out.push(text),
    complain: (text) => err.push(text),
    progress: undefined,
    signal: new AbortController().signal,
    ...kept,
  });
  return { status, out: out.join(""), err: err.join("") };
}

const script = fileURLToPath(new URL("../../scripts/bothtacks.mjs", import.meta.url));

/** Runs the command line as a user does, in a process of its own and in a folder of theirs. */
export function commandLineProcess(folder: string, ...args: readonly string[]): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [script, ...args], { env: { ...process.env, INIT_CWD: folder } });
    let [out, err] = ["", ""];
    child.stdout.on("data", (chunk) => {
      out += chunk;
    });
    child.stderr.on("data", (chunk) => {
      err += chunk;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ status: status ?? -1, out, err }));
  });
}
