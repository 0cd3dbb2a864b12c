/** Where the script leaves the function that starts plotly step by step. */
export const STEPS = "plotlySteps";

/** Plotly's bundle is one function, whose body ends by starting the module that starts all others. */
const BEGIN = "var Plotly=(()=>{";
const END = /return [\w$]+\(\);?\}\)\(\);/;

/** The bundler's helper for a module that starts when it is first asked for; $1 is what stands before such a module. */
const MODULE = /(=\(([\w$]+),([\w$]+)\)=>)\(\)=>\{try\{return \3\|\|\2\(/;

/** The helper stands among the first lines, the end before nothing but licences. */
const [HEAD, TAIL] = [10_000, 100_000] as const;

/** The licence of the whole, and what comes after the licences of its parts. */
const LICENCE = /^\/\*[\s\S]*?\*\/\n/;
const AFTER = "window.Plotly =";

/**
 * Plotly's source as a script that starts it in steps. As it is, the browser does nothing else from its first module to its
 * thousandth; this one leaves a generator function, which pauses after each module and returns plotly. Every module starts
 * once in both, after those that it needs.
 *
 * @param source the text of plotly's minified browser build
 * @returns the script's text, in pieces, with all licences; undefined where the build is not as it was when this was written. Never throws.
 */
export function plotlyInSteps(source: string): readonly string[] | undefined {
  const begin = source.indexOf(BEGIN);
  const start = begin + BEGIN.length;
  const module = MODULE.exec(source.slice(start, start + HEAD));
  const tail = Math.max(start, source.length - TAIL);
  const end = END.exec(source.slice(tail));
  if (begin < 0 || !module || !end) return undefined;
  const helper = start + module.index + module[1]!.length;
  const last = tail + end.index;
  const [whole = ""] = /^return [\w$]+\(\)/.exec(end[0]) ?? [];
  return [
    `${LICENCE.exec(source)?.[0] ?? ""}${STEPS}=(function*(){"use strict";const modules=[];`,
    source.slice(start, helper),
    "modules[modules.length]=",
    source.slice(helper, last),
    `yield;for(const module of modules){module();yield}${whole}});`,
    source.slice(last + end[0].length, Math.max(last + end[0].length, source.lastIndexOf(AFTER))),
  ];
}

/** The pieces of the script that starts plotly: in steps, or at once where its build is not as expected. Never throws. */
export const plotlyScript = (source: string): readonly string[] => plotlyInSteps(source) ?? [source];
