import { defineConfig } from "vitest/config";
import { notebooks } from "./packages/notebooks/src/build/plugin.ts";

const conditions = ["bothtacks-source"];

export default defineConfig({
  plugins: [notebooks()],
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ["default", "./tests/support/plainLineReporter.ts"],
  },
});
