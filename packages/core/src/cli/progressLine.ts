import type { Progress } from "../job/logSource.ts";

const LEAST_MILLISECONDS = 100;

/**
 * One line that is written over and over, for someone who looks on; nothing at all where nobody does.
 *
 * @param write where to; undefined when nobody looks on
 */
export function progressLine(write: ((text: string) => void) | undefined): {
  readonly show: Progress;
  readonly clear: () => void;
} {
  let [last, length] = [0, 0];
  const over = (text: string) => {
    write?.(`\r${text.padEnd(length)}${text === "" ? "\r" : ""}`);
    length = text.length;
  };
  const show = (what: string, share: number) => {
    const now = performance.now();
    if (!write || now - last < LEAST_MILLISECONDS) return;
    last = now;
    over(Number.isNaN(share) ? `${what} …` : `${what} ${Math.round(100 * share)} %`);
  };
  return { show, clear: () => (length > 0 ? over("") : undefined) };
}
