import type { Reporter, TestModule } from "vitest/node";

/** Ends a run with one plain line, `tests: N passed, N failed`, that any script can read. */
export default class PlainLineReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const tests = modules.flatMap((module) => [...module.children.allTests()]);
    const broken = modules.filter((module) => module.errors().length > 0).length;
    const passed = tests.filter((test) => test.result().state === "passed").length;
    const failed = tests.filter((test) => test.result().state === "failed").length;
    console.log(`tests: ${passed} passed, ${failed + broken + unhandled.length} failed`);
  }
}
