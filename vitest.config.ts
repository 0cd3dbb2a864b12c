import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import { notebooks } from "./packages/notebooks/src/build/plugin.ts";
import SlowFirst from "./tests/support/slowFirst.ts";

const conditions = ["bothtacks-source"];

export default defineConfig({
  plugins: [notebooks()],
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    include: ["tests/**/*.test.ts"],
    // the tests compute more than they wait: with the usual one core left over a machine of two would use one
    maxWorkers: availableParallelism(),
    // no module keeps state, so that files may share those that they import: a minute less
    isolate: false,
    sequence: { sequencer: SlowFirst },
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ["default", "./tests/support/plainLineReporter.ts"],
  },
});
