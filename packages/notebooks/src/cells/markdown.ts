import { unbroken } from "@bothtacks/core/page";
import katex from "katex";
import MarkdownIt, { type MarkdownIt as Markdown } from "markdown-it";

/** Kinds of token that notebooks add. */
export const VALUE = "cell_value";
export const MATHS = "maths";

/** A dollar before a space or beside a word is a dollar; two make a displayed formula. */
const FORMULA = /^(?:(\$)(?!\s|\$)((?:\\.|[^\\$])+?)(?<!\s)\$(?!\w)|(\$\$)((?:\\.|[^\\$])+)\$\$)/s;

/** Adds `$…$` and `$$…$$`. */
function withMaths(markdown: Markdown): void {
  markdown.inline.ruler.before("escape", MATHS, (state, silent) => {
    const found = FORMULA.exec(state.src.slice(state.pos));
    if (!found || /\w/.test(state.src[state.pos - 1] ?? "")) return false;
    if (!silent) {
      const token = state.push(MATHS, "", 0);
      token.content = found[2] ?? found[4] ?? "";
      token.markup = found[1] ?? found[3] ?? "";
    }
    state.pos += found[0].length;
    return true;
  });
}

/** Adds `{{expression}}`, which stands for the expression's value. */
function withValues(markdown: Markdown): void {
  markdown.inline.ruler.before("escape", VALUE, (state, silent) => {
    const found = /^\{\{(.+?)\}\}/s.exec(state.src.slice(state.pos));
    if (!found) return false;
    if (!silent) state.push(VALUE, "", 0).content = found[1] ?? "";
    state.pos += found[0].length;
    return true;
  });
}

/** Keeps numbers on one line with their units, also where the number is a value that comes later. */
function withUnbrokenAmounts(markdown: Markdown): void {
  markdown.core.ruler.push("unbroken_amounts", ({ tokens }) => {
    for (const children of tokens.map((token) => token.children ?? []))
      children.forEach((child, place) => {
        if (child.type !== "text") return;
        const [before, after] = [place - 1, place + 1].map((beside) =>
          children[beside]?.type === VALUE ? "0" : "",
        ) as [string, string];
        const joined = unbroken(`${before}${child.content}${after}`);
        child.content = joined.slice(before.length, joined.length - after.length);
      });
  });
}

/** Markdown as notebooks speak it: CommonMark with tables, maths and values; tags of HTML are plain text. */
export function notebookMarkdown(): Markdown {
  // quotation marks are set as printers set them; what looks like a sign, such as (c), stays
  const markdown = MarkdownIt({ html: false, typographer: true }).disable("replacements");
  withMaths(markdown);
  withValues(markdown);
  withUnbrokenAmounts(markdown);
  return markdown;
}

/**
 * A formula as it stands on the page.
 *
 * @param formula in the language of TeX
 * @throws Error where it cannot be read
 */
export const mathsMarkup = (formula: string, isDisplayed: boolean): string =>
  katex.renderToString(formula, { displayMode: isDisplayed, throwOnError: true, strict: "error" });

/**
 * Code as it stands on the page; wide code can be scrolled by the keyboard. Never throws.
 *
 * @param code escaped already
 */
export const codeMarkup = (code: string): string =>
  `<pre tabindex="0" role="region" aria-label="Code"><code>${code}</code></pre>`;
