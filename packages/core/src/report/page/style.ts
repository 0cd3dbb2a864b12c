/** Colours by name, in the light. The figures look theirs up here too. */
export const LIGHT = `
  --paper: #fcfcfa; --raised: #ffffff; --ink: #1b2329; --muted: #55616b; --line: #d5dade; --grid: #e4e8ea;
  --accent: #1b5e8c; --band: rgba(27, 94, 140, 0.13); --port: #b4231f; --starboard: #0b7040;`;

/** The same in the dark. */
export const DARK = `
  --paper: #11171b; --raised: #171f24; --ink: #e4eaed; --muted: #9fadb6; --line: #33404a; --grid: #263139;
  --accent: #7cbcec; --band: rgba(124, 188, 236, 0.16); --port: #ff8d84; --starboard: #5fd394;`;

/** How the parts of a page look that other pages share with the report: agreements, figures, tables, the tacks' marks. */
export const PARTS = `
ul.words { max-width: 44rem; padding-left: 1.2rem; margin: 0.5rem 0; }
ul.words li { margin: 0.4rem 0; }
ul.words li::marker { color: var(--muted); }
.quiet { color: var(--muted); font-size: 0.9rem; }
.agreements { display: grid; gap: 0 1rem; row-gap: 0; grid-template-columns: repeat(auto-fit, minmax(14rem, 1fr)); }
.agreement { display: grid; grid-row: span 6; grid-template-rows: subgrid; row-gap: 0.2rem;
  background: var(--raised); border: 1px solid var(--line); border-radius: 0.5rem; padding: 1rem 1.1rem 0.9rem; margin-bottom: 1rem; }
.agreement h3 { margin: 0; line-height: 1.35; }
.agreement p { margin: 0.2rem 0; }
.agreement .after { font-size: 1.5rem; font-weight: 600; line-height: 1.3; font-variant-numeric: tabular-nums; white-space: nowrap; }
.agreement svg { display: block; width: 100%; height: auto; margin: 0.4rem 0; }
.strip-line { stroke: var(--line); stroke-width: 1; }
.strip-zero { stroke: var(--muted); stroke-width: 1; }
.strip text { fill: var(--muted); font-size: 13px; }
.strip-before line { stroke: var(--muted); stroke-width: 2; }
.strip-before circle { fill: var(--raised); stroke: var(--muted); stroke-width: 2; }
.strip-after line { stroke: var(--accent); stroke-width: 3; }
.strip-after circle { fill: var(--accent); }
figure { margin: 1rem 0 0; }
.drawing { width: 100%; }
figcaption { color: var(--muted); font-size: 0.9rem; max-width: 44rem; margin-top: 0.4rem; }
.scroll { overflow-x: auto; margin: 0.5rem 0 1.25rem; }
.quiet[id] { margin-top: 1rem; }
table { border-collapse: collapse; font-size: 0.92rem; font-variant-numeric: tabular-nums; }
th, td { text-align: left; padding: 0.35rem 0.9rem 0.4rem 0; border-bottom: 1px solid var(--line); vertical-align: top; }
thead th { font-weight: 600; vertical-align: bottom; border-bottom-color: var(--muted); }
tbody th { font-weight: 400; }
.number { text-align: right; white-space: nowrap; }
.grid td, .grid thead th:not(:first-child) { text-align: right; min-width: 5.4rem; }
.grid tbody tr:not(.band) th, .grid thead th:first-child { position: sticky; left: 0; background: var(--paper); white-space: nowrap; }
.grid .band th { padding: 1.1rem 0 0.1rem; border-bottom: 0; font-weight: 600; }
.grid .band span { position: sticky; left: 0; }
.entry { display: block; font-weight: 600; white-space: nowrap; }
.entry.small-change { font-weight: 400; }
.unlearnt { display: block; color: var(--muted); white-space: nowrap; }
.evidence { display: block; color: var(--muted); font-size: 0.87em; white-space: nowrap; }
.tack { white-space: nowrap; }
.tack::before { print-color-adjust: exact; -webkit-print-color-adjust: exact; content: ""; display: inline-block; width: 0.62em; height: 0.62em; margin-right: 0.4em; background: currentColor; }
.tack.port { color: var(--port); }
.tack.starboard { color: var(--starboard); }
.tack.port::before { clip-path: polygon(0 50%, 100% 0, 100% 100%); }
.tack.starboard::before { clip-path: polygon(50% 0, 100% 50%, 50% 100%, 0 50%); }
th .evidence, .text .evidence, .settings td:last-child .evidence { white-space: normal; }
.settings th { min-width: 7rem; }
.text { min-width: 11rem; }
.states .text { min-width: 8rem; }
code { font-family: ui-monospace, "SF Mono", Consolas, monospace; font-size: 0.88em; }
.received { overflow-wrap: anywhere; }
`;

/** What changes about the parts in print. */
export const PARTS_IN_PRINT = `
  .screen-only { display: none !important; }
  .to-do, .to-key-in { columns: 2; column-gap: 8mm; }
  .to-do h3:first-child, .to-key-in > :first-child { margin-top: 0; }
  ul.words { margin: 0.2rem 0; padding-left: 1.5rem; }
  ul.words li { margin: 0.15rem 0; }
  .agreement { padding: 0.5rem 0.7rem 0.4rem; margin-bottom: 0.3rem; }
  .agreement .after { font-size: 1.2rem; }
  .agreement h3 { font-size: 0.95em; }
  .agreement p { margin: 0.05rem 0; }
  .agreement svg { max-height: 12mm; margin: 0.1rem 0; }
  .to-key-in table { font-size: 0.8em; }
  .to-key-in th, .to-key-in td { padding-right: 0.4rem; }
  .settings th .evidence, .to-key-in .quiet[id] { display: none; }
  .to-key-in thead th { white-space: normal; }
  .grid tbody:not(:has(.entry)), .grid tbody tr:not(.band):not(:has(.entry)), .grid .unlearnt, .grid .unlearnt + .evidence { display: none; }
  ul.words, p, figcaption { max-width: none; }
  figcaption, .quiet { font-size: 0.9em; }
  th, td { padding: 0.15rem 0.6rem 0.15rem 0; }
  .grid .band th { padding-top: 0.4rem; }
  .agreements { grid-template-columns: repeat(3, 1fr); padding-inline: 1px; }
  .quiet[id] { break-after: avoid; }
  figure { margin-top: 0.4rem; }
  .drawing { min-height: 0 !important; }
  figure, .agreement, tr, .grid tbody, li { break-inside: avoid; }
  .scroll { overflow: visible; }
  table { font-size: 0.9em; }
  .grid td, .grid thead th:not(:first-child) { min-width: 0; padding-right: 0.5rem; }
`;

/** The page's style sheet: system fonts, one column, light and dark, A4 in print. */
export const STYLE = `
:root { color-scheme: light dark; ${LIGHT} }
@media screen and (prefers-color-scheme: dark) { :root:not(.printing) { ${DARK} } }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink);
  font: 1rem/1.55 system-ui, -apple-system, "Segoe UI", Roboto, sans-serif; }
body > * { max-width: 60rem; margin-inline: auto; padding-inline: 1.25rem; }
header { padding-top: 2.5rem; }
h1 { font-size: 1rem; font-weight: 600; color: var(--muted); margin: 0; }
.lead { font-size: clamp(1.35rem, 1.05rem + 1.5vw, 1.9rem); line-height: 1.3; font-weight: 600; margin: 0.4rem 0 0.75rem;
  text-wrap: pretty; max-width: 46rem; }
.facts { color: var(--muted); margin: 0; overflow-wrap: anywhere; }
nav ul { display: flex; flex-wrap: wrap; gap: 0 1.25rem; font-size: 0.92rem; list-style: none; padding: 0; margin: 1.25rem 0 0; }
nav a { display: inline-block; padding: 0.3rem 0; }
a { color: var(--accent); text-underline-offset: 0.2em; }
:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
section { padding-top: 0.25rem; margin-top: 2rem; }
section::before { content: ""; display: block; border-top: 1px solid var(--line); margin-bottom: 1.5rem; }
h2 { font-size: 1.3rem; line-height: 1.3; margin: 0 0 0.75rem; }
h3 { font-size: 1rem; margin: 1.75rem 0 0.5rem; }
p { max-width: 44rem; margin: 0.5rem 0; }
${PARTS}
footer { color: var(--muted); font-size: 0.9rem; padding-block: 2.5rem 3rem; }
@media print {
  @page { size: A4; margin: 9mm 12mm; }
  html { font-size: 7.75pt; }
  body { background: none; line-height: 1.3; }
  .lead { font-size: 12.5pt; margin: 0.2rem 0; max-width: none; }
  #cautions ul.words { columns: 2; column-gap: 8mm; }
  #deviation-section { float: left; width: 51%; break-inside: avoid; }
  #deviation-section ~ #recording, #deviation-section ~ #cautions { margin-left: 53%; }
  #deviation-section ~ #cautions ul.words { columns: auto; }
  #deviation-section ~ #recording p, #deviation-section ~ #cautions li { font-size: 0.88em; margin: 0.05rem 0; }
  footer { clear: both; }
  .facts { display: inline; }
  h3 { margin: 0.7rem 0 0.2rem; }
  footer { padding-block: 0.6rem 0; }
  p { break-inside: avoid; }
  body > * { max-width: none; padding-inline: 0; }
  header { padding-top: 0; }
  section { padding-top: 0; margin-top: 0.4rem; break-before: auto; }
  section::before { margin-bottom: 0.4rem; }
  h2 { margin-bottom: 0.4rem; }
  nav { display: none; }
  h2, h3 { break-after: avoid; }
${PARTS_IN_PRINT}
}
`;
