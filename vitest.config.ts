import { defineConfig } from "vitest/config";

const conditions = ["bothtacks-source"];

export default defineConfig({
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ["default", "./tests/support/plainLineReporter.ts"],
  },
});
