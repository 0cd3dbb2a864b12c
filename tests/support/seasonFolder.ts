import { readFileSync } from "node:fs";
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "fflate";

const recorded = (name: string): Uint8Array =>
  readFileSync(fileURLToPath(new URL(`../../datasets/recorded/${name}`, import.meta.url)));

/** The end of the line in which a share of a log's bytes ends. */
const endOfLine = (log: Uint8Array, share: number): number =>
  log.indexOf(0x0a, Math.floor(share * log.length) - 1) + 1;

/** A log cut in two at the end of a line. */
function halves(log: Uint8Array): readonly [Uint8Array, Uint8Array] {
  const cut = endOfLine(log, 0.5);
  return [log.subarray(0, cut), log.subarray(cut)];
}

/**
 * A folder that holds three logs of open recordings, one of them in a folder of its own, and a text: a short season.
 *
 * @param gzip whether the logs are compressed, under the same names
 * @param share how much of each recording, from its beginning: all of it, or less where reading is no matter
 */
export async function seasonFolder(folder: string, { gzip = false, share = 1 } = {}): Promise<void> {
  const part = (name: string): Uint8Array => {
    const log = recorded(name);
    return log.subarray(0, endOfLine(log, share));
  };
  const [morning, noon] = halves(part("bay-start-2008.nmea"));
  const logs = { "1.log": morning, "2.log": noon, "later/3.log": part("lake-evening-2018.nmea") };
  await mkdir(join(folder, "later"), { recursive: true });
  for (const [name, log] of Object.entries(logs))
    await writeFile(join(folder, name), gzip ? gzipSync(log) : log);
  await writeFile(join(folder, "notes.txt"), "Sailed three times.\n");
}
