/** Feeds so many live samples and prints how many collections of garbage they caused: `liveCollections.ts COUNT`. */
import { constants, type PerformanceEntry, PerformanceObserver } from "node:perf_hooks";
import { setTimeout } from "node:timers/promises";
import {
  LIVE_SAMPLE,
  LIVE_SAMPLE_LENGTH,
  LIVE_WIND_LENGTH,
  liveState,
  liveWindInto,
  noCorrections,
} from "@bothtacks/core";

const SETTINGS = {
  ...noCorrections,
  speed: { intercept: 0.2, gainStarboard: 1.02, gainPort: 1.03 },
  compass: { a: 0.01, b: 0.02, c: 0.01, d: 0.004, e: 0.01, heelingError: 0.02 },
  vane: { mastheadOffset: 0.02, upwash: 0.03, upwashSlope: 0.001, upwashBroad: 0.002 },
  anemometer: { threshold: 0.4, gain: 1.02, speedUp: 0.05 },
  leeway: { coefficient: 2.3 },
};

const counted = { minor: 0, major: 0 };
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) {
    const { kind } = (entry as PerformanceEntry & { readonly detail: { readonly kind: number } }).detail;
    counted[kind === constants.NODE_PERFORMANCE_GC_MINOR ? "minor" : "major"] += 1;
  }
}).observe({ entryTypes: ["gc"] });

const state = liveState({
  settings: SETTINGS,
  variation: 0.02,
  damping: { direction: 8, speed: 4, angle: 2 },
  masthead: { height: 15, forward: 1 },
});
const sample = new Float64Array(LIVE_SAMPLE_LENGTH).fill(Number.NaN);
const out = new Float64Array(LIVE_WIND_LENGTH);

function feed(count: number): void {
  for (let index = 0; index < count; index++) {
    sample[LIVE_SAMPLE.time] = index / 10;
    sample[LIVE_SAMPLE.awa] = 0.5 + (index % 100) / 1000;
    sample[LIVE_SAMPLE.aws] = 8.1 + (index % 7) / 10;
    sample[LIVE_SAMPLE.stw] = 3.3 + (index % 5) / 10;
    sample[LIVE_SAMPLE.heading] = 0.001 + (index % 600) / 100;
    sample[LIVE_SAMPLE.heel] = -0.3 + (index % 9) / 100;
    sample[LIVE_SAMPLE.east] = 1.1;
    sample[LIVE_SAMPLE.north] = 2.2;
    liveWindInto(sample, state, out);
  }
}

// until the engine has compiled it, numbers are objects
feed(100_000);
await setTimeout(100);
const before = { ...counted };
const start = performance.now();
feed(Number(process.argv[2]));
const seconds = (performance.now() - start) / 1000;
await setTimeout(100);
process.stdout.write(
  JSON.stringify({ minor: counted.minor - before.minor, major: counted.major - before.major, seconds }),
);
