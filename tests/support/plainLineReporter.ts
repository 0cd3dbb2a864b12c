import type { Reporter, TestModule } from "vitest/node";

/** Ends a run with one plain line, `tests: N passed, N failed`, that any script can read. */
export default class PlainLineReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const count = (module: TestModule, state: "passed" | "failed") =>
      [...module.children.allTests(state)].length;
    const passed = modules.reduce((sum, module) => sum + count(module, "passed"), 0);
    // a file that failed without a failed test (it did not load, or what prepares its tests failed) counts as one
    const failed = modules.reduce(
      (sum, module) => sum + (count(module, "failed") || (module.state() === "failed" ? 1 : 0)),
      unhandled.length,
    );
    console.log(`tests: ${passed} passed, ${failed} failed`);
  }
}
