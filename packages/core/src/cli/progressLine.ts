import type { Progress } from "../job/logSource.ts";
import { duration } from "../report/format.ts";
import { shown } from "../report/shown.ts";

const LEAST_MILLISECONDS = 100;

/** Time left is told once this much has been done, and taken, for long enough to be worth telling. */
const [LEAST_SHARE, LEAST_WAIT_MS] = [0.02, 3000] as const;

/** "reading day.nmea 40 %, 12 s left": what is being done, how much of it is, and how long the rest takes at the pace so far. */
export function progressWords(what: string, share: number, elapsedMs: number): string {
  if (Number.isNaN(share)) return `${what} …`;
  const done = `${what} ${Math.round(100 * share)} %`;
  if (share < LEAST_SHARE || elapsedMs < LEAST_WAIT_MS) return done;
  return `${done}, ${duration((elapsedMs / 1000) * (1 / share - 1))} left`;
}

/**
 * One line that is written over and over, for someone who looks on; nothing at all where nobody does.
 *
 * @param write where to; undefined when nobody looks on
 */
export function progressLine(write: ((text: string) => void) | undefined): {
  readonly show: Progress;
  readonly clear: () => void;
} {
  const begin = performance.now();
  let [last, length, doing] = [0, 0, ""];
  const over = (text: string) => {
    write?.(`\r${text.padEnd(length)}${text === "" ? "\r" : ""}`);
    length = text.length;
  };
  const show = (what: string, share: number) => {
    const now = performance.now();
    if (!write || (what === doing && now - last < LEAST_MILLISECONDS)) return;
    last = now;
    doing = what;
    over(shown(progressWords(what, share, now - begin)));
  };
  return { show, clear: () => (length > 0 ? over("") : undefined) };
}
