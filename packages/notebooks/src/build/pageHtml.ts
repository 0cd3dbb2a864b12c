import { escaped, insideScript } from "@bothtacks/core/page";
import { PLOTLY_INSIDE } from "../page/plotlySource.ts";

/** What goes into a page; each of the three may be whole or a link to a file beside the page. */
export interface PageParts {
  readonly title: string;
  /** The Markdown's body. */
  readonly body: string;
  /** Elements for the head: style sheets. */
  readonly styles: string;
  /** Elements for the end of the body: scripts. */
  readonly scripts: string;
  /** Whether the list of notebooks lies beside the page. */
  readonly hasList: boolean;
  /** Whether the browser is told to ask the network for nothing, whatever the scripts wish. */
  readonly isSealed: boolean;
}

const SEAL = [
  "default-src 'none'",
  // plotly's fast drawing compiles its own functions
  "script-src 'unsafe-inline' 'unsafe-eval' blob:",
  "style-src 'unsafe-inline'",
  "font-src data:",
  "img-src data: blob:",
  "worker-src blob: data:",
  "frame-src blob: data:",
  "connect-src blob: data:",
].join("; ");

export const styleInside = (style: string): string => `<style>${style}</style>`;
export const styleBeside = (name: string): string => `<link rel="stylesheet" href="${name}">`;
export const scriptInside = (source: string): string => `<script>${insideScript(source)}</script>`;
export const scriptBeside = (name: string): string => `<script src="${name}"></script>`;

/** Plotly as text that does not run until a figure is drawn. */
export const plotlyInside = (source: string): string =>
  `<script type="text/plain" id="${PLOTLY_INSIDE}">${insideScript(source)}</script>`;

/** Where a script lies which is not loaded until a figure is drawn, or a report is saved. */
export const linkBeside = (id: string, name: string): string =>
  `<link rel="help" type="text/javascript" id="${id}" href="${name}">`;

const LIST = `<nav aria-label="Notebooks"><a href="index.html">All notebooks</a></nav>`;
const CODE_SWITCH = `<label class="option"><input type="checkbox" id="with-code" autocomplete="off">Code</label>`;

/** A whole page. Never throws. */
export const pageHtml = ({ title, body, styles, scripts, hasList, isSealed }: PageParts): string =>
  `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
${isSealed ? `<meta http-equiv="Content-Security-Policy" content="${SEAL}">\n` : ""}<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)}</title>
<link rel="icon" href="data:,">
${styles}
</head>
<body>
<a class="skip" href="#text">To the text</a>
<header class="top"><span class="name">both tacks</span>${hasList ? LIST : ""}${body.includes('<details class="code"') ? CODE_SWITCH : ""}</header>
<main id="text" tabindex="-1">
${body}
<noscript><p>This page computes in the browser: it needs JavaScript, and nothing from the network.</p></noscript>
</main>
${scripts}
</body>
</html>
`;
