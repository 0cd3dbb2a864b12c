/**
 * Plotly started in steps, and figures drawn in steps, so that the page answers in between.
 * INPUTS: the installed build of plotly; a made-up bundle of the same build tool. MARGIN: none.
 */
import { runInNewContext } from "node:vm";
import { describe, expect, it } from "vitest";
import { plotlySource } from "../../packages/core/src/node/plotlySource.ts";
import { plotlyInSteps, STEPS } from "../../packages/core/src/report/page/plotlyInSteps.ts";
import { drawingSteps } from "../../packages/notebooks/src/page/drawingSteps.ts";

/** A bundle of three modules, the last of which needs the others; each notes that it started. */
const BUNDLE = `/* licence */
(function(root,factory){root.moduleName=factory()}(this,()=>{
"use strict";var Plotly=(()=>{var W=(e,t)=>()=>{try{return t||e((t={exports:{}}).exports,t),t.exports}catch(r){throw t=0,r}};var a=W((x,y)=>{log.push("a");y.exports=1});var b=W((x,y)=>{var p=a();log.push("b");y.exports=p+1});var m=W((x,y)=>{var p=a(),q=b();log.push("m");y.exports={sum:p+q}});return m();})();
/*! licences */
window.Plotly = Plotly;
return Plotly;
}));`;

const started = (text: string) => {
  const log: string[] = [];
  const scope: Record<string, unknown> = { log, window: {} };
  runInNewContext(text, scope);
  return { log, scope };
};

describe("plotly in steps", () => {
  it("starts each module once, in the same order, one a step, and ends in the same", () => {
    const whole = started(BUNDLE);
    expect(whole.log).toEqual(["a", "b", "m"]);
    const { log, scope } = started(plotlyInSteps(BUNDLE)!.join(""));
    expect(log).toEqual([]);
    const steps = (scope[STEPS] as () => Iterator<undefined, { sum: number }>)();
    const counts: number[] = [];
    let step = steps.next();
    for (; !step.done; step = steps.next()) counts.push(log.length);
    expect(counts).toEqual([0, 1, 2, 3]);
    expect(log).toEqual(whole.log);
    expect(step.value).toEqual({ sum: 3 });
    expect(scope.window).toEqual({});
  });

  it("is possible with the build that is installed, whose modules all stay in", async () => {
    const source = await plotlySource();
    const pieces = plotlyInSteps(source)!;
    const [before = "", , after = ""] = [pieces[1], pieces[2], pieces[3]];
    expect(source).toContain(before + after);
    expect(source.length - before.length - after.length).toBeLessThan(100_000);
    expect(source.slice(source.indexOf(after) + after.length)).toMatch(/^return [\w$]+\(\);?\}\)\(\);/);
    const licences = source
      .split("\n")
      .filter((line) => /copyright|licen[sc]e/i.test(line) && line.length < 200);
    expect(licences.length).toBeGreaterThan(10);
    for (const line of licences) expect(pieces.join("")).toContain(line);
  });

  it("is not tried with a build that is made otherwise", () => {
    for (const part of ["var Plotly=(()=>{", "=(e,t)=>()=>{try{return t||", "return m();})();"])
      expect(plotlyInSteps(BUNDLE.replace(part, ";")), part).toBeUndefined();
  });
});

describe("a figure in steps", () => {
  const trace = (points: number) => ({ x: Array.from({ length: points }, () => 0), y: [1, 2] });

  it("is one step where it is small, and ends whole", () => {
    expect(drawingSteps({ traces: [trace(100), trace(100)] })).toEqual([2]);
    expect(drawingSteps({ traces: [] })).toEqual([0]);
  });

  it("adds no more than 200 points a step, but for a trace that has more, and begins with the axes", () => {
    expect(drawingSteps({ traces: [120, 80, 1, 900, 3].map(trace) })).toEqual([0, 2, 3, 4, 5]);
  });
});
