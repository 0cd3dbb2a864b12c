import { DARK, LIGHT, PARTS, PARTS_IN_PRINT } from "@bothtacks/core/page";

/** The inputs: large enough for a thumb on a moving boat. */
const INPUTS = `
.cell { margin: 1.1rem 0; }
.cell:empty { display: none; }
.cell:has(> .input) { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 19rem), 1fr)); gap: 0.6rem 2rem; }
.cell > .shown:not(.input) { grid-column: 1 / -1; min-width: 0; }
.cell > .shown:not(.input) + .shown:not(.input) { margin-top: 0.9rem; }
.cell > .shown > p { max-width: 42rem; }
.cell > .shown > table thead .number { white-space: normal; }
.labelled { display: grid; grid-template-columns: 1fr auto; align-items: baseline; gap: 0 0.75rem; min-height: 3.1rem; }
.labelled > input, .labelled > textarea { grid-column: 1 / -1; width: 100%; }
.cell > .input:has(> .labelled > input[type="range"]), .sliders > :has(> .labelled) { align-self: end; }
.labelled > output { grid-row: 1; grid-column: 2; font-weight: 600; font-variant-numeric: tabular-nums; white-space: nowrap; }
::placeholder { color: var(--muted); opacity: 1; }
input, select, button, textarea { font: inherit; color: inherit; }
textarea { font-family: ui-monospace, "Cascadia Mono", "DejaVu Sans Mono", Menlo, monospace; font-size: 0.92em; resize: vertical; }
input[type="range"], input[type="checkbox"], input[type="radio"] { accent-color: var(--accent); }
input[type="range"] { height: 2rem; margin: 0; }
input[type="checkbox"], input[type="radio"] { width: 1.25rem; height: 1.25rem; margin: 0; flex: none; }
input[type="number"], input[type="text"], input[type="date"], select, textarea { background: var(--raised); border: 1px solid var(--muted);
  border-radius: 0.3rem; padding: 0.45rem 0.6rem; min-height: 2.75rem; }
.refused { display: block; font-weight: 600; font-size: 0.92rem; }
.refused:empty { display: none; }
.refused::before { content: "✗ "; }
input[aria-invalid="true"] { border: 2px solid var(--ink); background: var(--band); }
button { background: var(--raised); border: 1px solid var(--muted); border-radius: 0.3rem; padding: 0.45rem 1rem; min-height: 2.75rem; cursor: pointer; }
button:hover:enabled { border-color: var(--ink); }
::file-selector-button { font: inherit; color: inherit; background: var(--raised); border: 1px solid var(--muted); border-radius: 0.3rem; padding: 0.45rem 1rem; margin-right: 0.8rem; cursor: pointer; }
button.main { background: var(--accent); border-color: var(--accent); color: var(--paper); font-weight: 600; }
button:disabled { color: var(--muted); border-style: dashed; cursor: default; }
.option { display: inline-flex; align-items: center; gap: 0.5rem; min-height: 2.75rem; margin-right: 1.25rem; padding-block: 0.3rem; line-height: 1.35; }
fieldset { border: 0; padding: 0; margin: 0; min-width: 0; }
legend { padding: 0; }
.cell > .input:has(textarea), .cell > .input:has(> .drop), .cell > .input:only-child:has(fieldset) { grid-column: 1 / -1; }
.drop { border: 1.5px dashed var(--muted); border-radius: 0.5rem; padding: 1rem 1.1rem; }
.drop.over { border-style: solid; border-color: var(--accent); background: var(--band); }
`;

const PROSE = `
h1 { font-size: clamp(1.7rem, 1.25rem + 1.9vw, 2.5rem); line-height: 1.15; font-weight: 650; letter-spacing: -0.01em; margin: 0.6rem 0 1rem; text-wrap: balance; }
h2 { font-size: 1.3rem; line-height: 1.3; margin: 2.75rem 0 0.6rem; }
h3 { font-size: 1.05rem; margin: 1.75rem 0 0.4rem; }
main > p, main > ul, main > ol, main > blockquote { max-width: 42rem; }
p { margin: 0.7rem 0; text-wrap: pretty; }
li { margin: 0.3rem 0; }
a { color: var(--accent); text-underline-offset: 0.2em; }
strong { font-weight: 650; }
blockquote { margin: 1.2rem 0; padding: 0.1rem 0 0.1rem 1.1rem; border-left: 3px solid var(--accent); }
.value { font-weight: 600; font-variant-numeric: tabular-nums; white-space: nowrap; }
.katex { font-size: 1.08em; }
.katex { white-space: nowrap; }
main .katex-display { overflow-x: auto; overflow-y: hidden; padding: 0.25rem 0 0.25rem 1.5rem; margin: 0.9rem 0; text-align: left; }
main .katex-display > .katex { text-align: left; }
pre { overflow-x: auto; background: var(--raised); border: 1px solid var(--line); border-radius: 0.3rem; padding: 0.75rem 0.9rem; font-size: 0.88rem; line-height: 1.5; }
pre code { font-size: 1em; }
details:not(.code) > pre { max-height: 24rem; overflow-y: auto; }
.code { margin: -0.4rem 0 1.4rem; }
.code > summary { color: var(--muted); font-size: 0.85rem; }
.elsewhere { font-style: italic; }
.elsewhere::after { content: " (a page in the folder)"; font-style: normal; color: var(--muted); }
body:not(.with-code) .code { display: none; }
summary { cursor: pointer; padding: 0.35rem 0; width: fit-content; }
.trouble { border-left: 4px solid var(--ink); background: var(--band); padding: 0.3rem 0.8rem; overflow-wrap: anywhere; }
.held { color: var(--muted); }
.while-busy { color: var(--muted); }
.cell:not([aria-busy="true"]) .while-busy { display: none; }
span.trouble { border: 0; white-space: normal; }
`;

/** Pictures from above and exercises. */
const LESSONS = `
.picture { display: block; width: 100%; max-width: 34rem; height: auto; margin: 0.5rem auto; overflow: visible; }
.picture text { font-size: 15px; fill: var(--ink); paint-order: stroke; stroke: var(--paper); stroke-width: 4px; stroke-linejoin: round; font-variant-numeric: tabular-nums; }
.picture .ring { fill: none; stroke: var(--grid); stroke-width: 1.2; }
.picture .ring-name { font-size: 13px; fill: var(--muted); }
.picture .side { fill: none; stroke: var(--muted); stroke-width: 1.5; }
.picture .side.port { stroke: var(--port); stroke-width: 4; stroke-dasharray: 9 4; }
.picture .side.starboard { stroke: var(--starboard); stroke-width: 4; }
.picture .mark.port { fill: var(--port); }
.picture .mark.starboard { fill: var(--starboard); }
.picture .side-name, .picture .quarter { font-size: 14px; fill: var(--muted); }
.picture .quarter { text-anchor: middle; }
.picture .hull { fill: var(--ink); }
.picture .ghost { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.picture .puff { fill: none; stroke: var(--accent); stroke-width: 2; }
.picture .handle { fill: transparent; stroke: var(--accent); stroke-width: 1.2; stroke-dasharray: 3 4; cursor: grab; touch-action: none; }
.draggable:active .handle { cursor: grabbing; }
.pictured { display: block; }
.cell:has(> .input > .pictured) { display: block; }
.sliders { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 19rem), 1fr)); gap: 0.6rem 2rem; }
.picture .sight { stroke: var(--muted); stroke-width: 1; stroke-dasharray: 1 4; stroke-linecap: round; }
.arrow line { stroke-width: 3; }
.arrow.trueWind line { stroke: var(--accent); stroke-width: 4; }
.arrow.trueWind path { fill: var(--accent); }
.arrow.groundWind line { stroke: var(--accent); stroke-width: 4; stroke-dasharray: 2 5; }
.arrow.groundWind path { fill: var(--accent); }
.arrow.feltWind line { stroke: var(--ink); }
.arrow.feltWind path { fill: var(--ink); }
.arrow.boat line { stroke: var(--muted); stroke-dasharray: 10 4; }
.arrow.boat path { fill: var(--muted); }
.arrow.current line { stroke: var(--muted); stroke-dasharray: 2 4; }
.arrow.current path { fill: var(--paper); stroke: var(--muted); stroke-width: 1.5; }
.credit { overflow-wrap: anywhere; }
.exercise { border: 1px solid var(--line); border-radius: 0.5rem; background: var(--raised); padding: 0.4rem 1.1rem 0.9rem; max-width: 42rem; margin: 1.2rem 0; }
.answer { display: flex; flex-wrap: wrap; align-items: end; gap: 0.5rem 0.9rem; }
.answer .labelled { grid-template-columns: 1fr; max-width: 100%; }
.answer .labelled > input[type="text"] { width: min(100%, 16rem); }
.answer .labelled:has(> input[type="number"]) { width: max-content; }
.answer .labelled > input[type="number"] { width: 9rem; }
.options { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 17rem), 1fr)); margin: 0.5rem 0 0.8rem; }
.options legend { margin-bottom: 0.3rem; }
.said p { font-weight: 600; margin: 0.6rem 0 0.2rem; }
.right::before { content: "✓ "; }
`;

const FRAME = `
:root { color-scheme: light dark; ${LIGHT} }
@media screen and (prefers-color-scheme: dark) { :root:not(.printing) { ${DARK} } }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; scroll-padding-top: 1rem; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.0625rem/1.6 system-ui, -apple-system, "Segoe UI", Roboto, sans-serif; }
@media (min-width: 1600px) { html { font-size: 118%; } }
body > * { max-width: 54rem; margin-inline: auto; padding-inline: 1.25rem; }
.top { display: flex; flex-wrap: wrap; align-items: center; gap: 0 1.5rem; padding-top: 1.25rem; font-size: 0.95rem; }
.top a { display: inline-block; padding: 0.6rem 0; }
.top .option { margin: 0; color: var(--muted); }
.name { display: inline-flex; align-items: center; gap: 0.5rem; font-weight: 650; padding: 0.6rem 0; margin-right: auto; }
.name::before, .name::after { content: ""; width: 0.68em; height: 0.68em; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.name::before { background: var(--port); clip-path: polygon(0 50%, 100% 0, 100% 100%); }
.name::after { background: var(--starboard); clip-path: polygon(50% 0, 100% 50%, 50% 100%, 0 50%); }
main { display: block; padding-bottom: 4rem; }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; border-radius: 2px; }
.skip { position: absolute; left: -100vw; }
.skip:focus { left: 1rem; top: 0.5rem; background: var(--paper); padding: 0.5rem 0.75rem; z-index: 1; }
noscript p { border: 1px solid var(--muted); padding: 0.6rem 0.9rem; }
`;

const PRINT = `
@media print {
  @page { size: A4; margin: 15mm 14mm; }
  html { font-size: 10pt; }
  body { font-size: 10pt; background: none; }
  body > * { max-width: none; padding-inline: 0; }
  .top a, .top label, .code, .skip, main button { display: none !important; }
  h2, h3 { break-after: avoid; }
  p, .cell > .shown { break-inside: avoid; }
  .picture { max-width: 20rem; }
  .picture .handle { display: none; }
${PARTS_IN_PRINT}
}
`;

/** The style sheet of the notebooks' pages: system fonts, one column, light and dark, A4 in print. */
export const STYLE = `${FRAME}${PARTS}${PROSE}${INPUTS}${LESSONS}${PRINT}`;
