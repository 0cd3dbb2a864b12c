import type { Figure } from "../figures/figure.ts";
import { unbroken } from "../format.ts";
import { html, type Markup, NOTHING } from "../markup.ts";

/** A list of sentences. */
export const sentenceList = (sentences: readonly string[]): Markup =>
  html`<ul class="words">${sentences.map((sentence) => html`<li>${unbroken(sentence)}</li>`)}</ul>`;

/** A list below a title; nothing without sentences. */
export const titledList = (title: string, sentences: readonly string[]): Markup =>
  sentences.length === 0 ? NOTHING : html`<h3>${title}</h3>${sentenceList(sentences)}`;

/** A place for the page's script to draw in, and the figure's conclusion below it. */
export const figureMarkup = (figure: Figure | undefined): Markup =>
  figure
    ? html`<figure><div class="drawing" id="${figure.id}" role="img" aria-label="${figure.label}" style="min-height:${figure.height}px"></div>
<figcaption>${unbroken(figure.caption)}</figcaption></figure>`
    : NOTHING;

/**
 * A table below its description. It scrolls by itself where the page is narrower, and can be reached by the keyboard;
 * the description does not scroll with it.
 */
export const describedTable = (id: string, description: string, table: Markup): Markup =>
  html`<p class="quiet" id="${id}">${unbroken(description)}</p>
<div class="scroll" role="region" aria-labelledby="${id}" tabindex="0">${table}</div>`;

/** A tack's name with the mark that it has in the figures. */
export const tackName = (tack: "starboard" | "port"): Markup =>
  html`<span class="tack ${tack}">${tack}</span>`;
