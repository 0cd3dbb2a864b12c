/** How the bench looks, beside what all notebooks share. */
export const STYLE = `
.bench [hidden] { display: none !important; }
.bench .unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.bench .opening { padding: 1.4rem 1.3rem; background: var(--raised); }
.bench .opening p { margin: 0; max-width: 46rem; }
.bench .opening p + p { margin-top: 0.8rem; }
.doors { display: flex; flex-wrap: wrap; align-items: center; gap: 0.6rem 0.9rem; }
.doing { display: grid; grid-template-columns: 1fr auto; gap: 0.3rem 1rem; align-items: center; padding: 0.6rem 0; }
.doing .what { font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
.doing progress { grid-column: 1; width: 100%; height: 0.8rem; accent-color: var(--accent); }
.doing button { grid-column: 2; grid-row: 1 / 3; }
.boat-form { margin: 1rem 0; border-bottom: 1px solid var(--line); padding-bottom: 0.5rem; }
.boat-form > summary { font-weight: 600; padding: 0.6rem 0; min-height: 2.75rem; }
.boat-form .known { font-weight: 400; margin-left: 0.4rem; }
.questions fieldset { margin: 1.3rem 0; }
.questions legend { font-weight: 600; margin-bottom: 0.4rem; }
.fields { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 17.5rem), 1fr)); gap: 0.9rem 1.5rem; align-items: start; }
.fields + .fields { margin-top: 0.9rem; }
.field { display: grid; gap: 0.2rem; }
.field:has(.option) { align-self: end; }
.moved { margin: 0.3rem 0; }
.moved td, .moved th { padding-right: 1.4rem; }
.field .option { margin: 0; padding: 0; }
.field .option label { padding: 0.6rem 0; }
.field input[type="text"], .field select { width: 100%; }
.field .hint { font-size: 0.85rem; line-height: 1.35; margin: 0.15rem 0 0; }
.field-error { font-weight: 600; }
.field-error:empty { display: none; }
.field-error::before { content: "✗ "; }
.contents ul { list-style: none; display: flex; flex-wrap: wrap; gap: 0.1rem 1.4rem; padding: 0; margin: 0.4rem 0 1rem; }
.contents a { display: inline-block; padding: 0.35rem 0; }
.recording { overflow-wrap: anywhere; }
.conclusion { font-size: 1.25rem; line-height: 1.45; max-width: 44rem; }
.bench .progress:has(.doing:not([hidden])) { position: sticky; top: 0; z-index: 2; background: var(--paper); border-bottom: 1px solid var(--line); }
.legs-line { display: flex; flex-wrap: wrap; align-items: stretch; gap: 0.9rem 0; margin: 1rem 0 0.5rem; }
.legs-line button { scroll-margin-block: 6rem; position: relative; height: 4.6rem; min-height: 0; padding: 0; border: 0; background: none; border-radius: 0.2rem; }
.legs-line .leg { width: max(2.8rem, calc(var(--minutes) * 0.75rem)); }
.legs-line .turn { width: 1.75rem; }
.legs-line .leg .mark { position: absolute; inset-inline: 0; height: 1.65rem; display: grid; place-content: center; grid-auto-flow: column; align-items: center;
  border: 2px solid currentColor; border-radius: 0.2rem; font-size: 0.85rem; font-weight: 600; line-height: 1; background: var(--raised); font-variant-numeric: tabular-nums; }
.legs-line .starboard .mark { top: 0; }
.legs-line .port .mark { top: 1.85rem; }
.legs-line .power .mark { top: 0.92rem; color: var(--muted); border-style: double; border-width: 4px; }
.legs-line .when { position: absolute; inset-inline: 0; bottom: 0; font-size: 0.74rem; line-height: 1; color: var(--muted); font-variant-numeric: tabular-nums; text-align: center; }
.legs-line .turn .mark, .sample.turn .mark { display: block; width: 0; margin-inline: auto; border-left: 2px solid var(--muted); }
.legs-line .turn .mark { height: 3.5rem; margin-bottom: 1.1rem; }
.turn-gybe .mark { border-left-style: dashed !important; }
.turn-other .mark { border-left: 3px dotted var(--muted) !important; opacity: 0.75; }
.legs-line button:hover .mark { background: var(--band); }
.legs-line .leg.left-out .mark { border-style: dashed; border-width: 2px; color: var(--muted); background: none; text-decoration: line-through; font-weight: 400; }
.legs-line .left-out .tack::before { content: none; }
.legs-line .turn.left-out .mark { opacity: 0.35; }
.legs-line .turn.left-out::after { content: "✕"; position: absolute; inset: 0 0 1.1rem; display: grid; place-content: center; font-weight: 700; }
.days .day > summary { font-weight: 600; padding: 0.55rem 0; min-height: 2.75rem; font-variant-numeric: tabular-nums; }
.days .day + .day { border-top: 1px solid var(--line); }
.days .day .quiet { font-weight: 400; margin-left: 0.6rem; }
.told.stays { position: sticky; bottom: 0; z-index: 1; }
.told { min-height: 4.9em; margin: 0.4rem 0; padding: 0.4rem 0; background: var(--paper); border-top: 1px solid var(--line); font-variant-numeric: tabular-nums; }
.told p { margin: 0; max-width: none; }
.shear .day { white-space: nowrap; }
.key { list-style: none; display: flex; flex-wrap: wrap; gap: 0.2rem 1.3rem; padding: 0; margin: 0.8rem 0 0; }
.key li { margin: 0; display: inline-flex; align-items: center; }
.sample { display: inline-block; margin-right: 0.5em; }
.sample.turn .mark { height: 1.2em; }
.sample.power::before { content: ""; display: inline-block; width: 1.4em; height: 0.9em; border: 4px double var(--muted); vertical-align: middle; margin-right: 0.5em; }
.sample.struck { width: 1.8em; border: 2px dashed var(--muted); border-radius: 0.2rem; text-align: center; line-height: 1.1; }
.files { list-style: none; padding: 0; }
.files li { display: flex; flex-wrap: wrap; align-items: center; gap: 0.3rem 1rem; margin: 0.6rem 0; }
@media (min-width: 46rem) {
  .take-along li { display: grid; grid-template-columns: 14rem 1fr; }
  .take-along button { justify-self: start; }
  .take-along li > :nth-child(n + 3) { grid-column: 2; }
}
@media print {
  @page { size: A4; margin: 9mm 12mm; }
  html { font-size: 7.75pt; }
  body { font-size: 1rem; line-height: 1.3; }
  .top, main > :not(.cell) { display: none !important; }
  main { padding: 0; }
  .bench h2 { margin: 0.5rem 0 0.2rem; }
  .bench h3 { margin: 0.55rem 0 0.15rem; }
  .conclusion { font-size: 12.5pt; line-height: 1.3; margin: 0.2rem 0; max-width: none; }
  .shear .evidence { display: inline; margin-left: 0.5em; }
  .beside-in-print { columns: 2; column-gap: 8mm; }
  .beside-in-print > .to-do, .beside-in-print > .to-key-in { columns: auto; }
  .card { break-inside: avoid; }
  #shear-description { display: none; }
  .beside-in-print .card table { font-size: 0.78em; }
  .beside-in-print .card th, .beside-in-print .card td { padding-right: 0.4rem; }
  #cautions ~ ul.words { columns: 3; column-gap: 5mm; font-size: 0.85em; }
  .opening, .boat-form, .contents, .progress, .take-along, .timeline { display: none !important; }
  .cell > .shown.bench { break-inside: auto; }
}
`;
