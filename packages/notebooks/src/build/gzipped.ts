import { readFile } from "node:fs/promises";
import { gzipSync } from "node:zlib";

/** What an import of a file as gzip ends in. */
const AS_GZIP = "?gzip";

export const isGzip = (id: string): boolean => id.endsWith(AS_GZIP);

/**
 * A module whose default export is the file as gzip, as an address that holds its bytes: a log is some ten times smaller so.
 *
 * @throws Error where the file cannot be read
 */
export async function gzipModule(id: string): Promise<string> {
  const bytes = await readFile(id.slice(0, -AS_GZIP.length));
  const packed = gzipSync(bytes, { level: 9 }).toString("base64");
  return `export default ${JSON.stringify(`data:application/gzip;base64,${packed}`)};`;
}
