import type { Figure } from "../figures/figure.ts";
import { html, insideScript, jsonInsideScript, type Markup, NOTHING } from "../markup.ts";
import { plotlyScript } from "./plotlyInSteps.ts";
import { PLOTLY, SCRIPT } from "./script.ts";
import { STYLE } from "./style.ts";

/** A part of a page, with a heading of its own. */
export interface Section {
  readonly id: string;
  readonly title: string;
  readonly body: Markup;
  /** Left out in print, which is for the chart table: what is keyed in, how sure it is, what to sail next. */
  readonly onScreenOnly?: boolean;
}

/** What a page holds. */
export interface PageContent {
  readonly title: string;
  /** The conclusion in a sentence, and facts in small print below it. */
  readonly lead: string;
  readonly facts: string;
  readonly sections: readonly Section[];
  readonly footer: string;
  /** Figures whose places are in the sections. */
  readonly figures: readonly Figure[];
}

const sectionMarkup = ({ id, title, body, onScreenOnly = false }: Section): Markup =>
  html`<section id="${id}"${onScreenOnly ? html` class="screen-only"` : NOTHING} aria-labelledby="${id}-title"><h2 id="${id}-title">${title}</h2>${body}</section>`;

const header = ({ title, lead, facts, sections }: PageContent): Markup => html`<header>
<h1>${title}</h1>
<p class="lead">${lead}</p>
<p class="facts">${facts}</p>
<nav aria-label="Sections"><ul>${sections.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
</header>`;

/** Nothing may be fetched by the page, from anywhere. */
const POLICY =
  "default-src 'none'; script-src 'unsafe-inline' blob:; style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'";

/**
 * One HTML document that needs nothing beside it and asks for nothing.
 *
 * @param plotlySource the text of plotly's minified browser build; it is inlined
 * @returns the document. Never throws.
 */
export function pageDocument(content: PageContent, plotlySource: string): string {
  const raw = (markup: string): Markup => ({ markup });
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="referrer" content="no-referrer">
<title>${content.title}</title>
<link rel="icon" href="data:,">
<style>${raw(STYLE)}</style>
</head>
<body>
${header(content)}
<main>
${content.sections.map(sectionMarkup)}
</main>
<footer>${content.footer}</footer>
<script type="application/json" id="figures">${raw(jsonInsideScript(content.figures))}</script>
<script type="text/plain" id="${PLOTLY}">${raw(insideScript(plotlyScript(plotlySource).join("")))}</script>
<script>${raw(insideScript(SCRIPT))}</script>
</body>
</html>
`.markup;
}
