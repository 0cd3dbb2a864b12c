/** How "Between regattas" looks, beside what it shares with "Your boat". */
export const STYLE = `
.strips { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 17rem), 1fr)); gap: 0.4rem 1.6rem; }
.strip-history { margin: 0.6rem 0; }
.strip-history figcaption { color: var(--ink); margin: 0; }
.strip-history svg { display: block; width: 100%; height: auto; }
.strip-history text { font-size: 12.5px; fill: var(--muted); font-variant-numeric: tabular-nums; }
.strip-history .moved-mark { fill: var(--ink); font-weight: 650; }
.strip-history .rule { stroke: var(--grid); stroke-width: 1; }
.strip-history .would-show { fill: var(--band); }
.strip-history .known line { stroke: var(--accent); stroke-width: 2.5; }
.strip-history .known circle { fill: var(--accent); }
.strip-history .unknown line { stroke: var(--muted); stroke-width: 1.5; stroke-dasharray: 3 3; }
.strip-history .unknown circle { fill: var(--paper); stroke: var(--muted); stroke-width: 1.5; }
.given .files li { justify-content: space-between; flex-wrap: nowrap; border-bottom: 1px solid var(--line); margin: 0; padding: 0.4rem 0; }
.given .files button { flex: none; }
.between details { margin: 0.8rem 0; }
.between ol.words { max-width: 44rem; padding-left: 1.6rem; }
.between ol.words li { margin: 0.4rem 0; }
.between form[aria-busy="true"] { opacity: 0.6; }
@media print {
  .between .plan, .between .given, .between details:not([open]) { display: none !important; }
  .between details > summary { break-after: avoid; }
  .between details { break-inside: avoid; }
}
`;
