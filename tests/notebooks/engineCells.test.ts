/**
 * What cells declare and need.
 * INPUTS: programs drawn at random; the names that a program takes from outside are those that it is seen to look up when
 * it runs in a scope which records every look-up. MARGIN: none, names agree or not.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellOf } from "../../packages/notebooks/src/cells/cell.ts";
import { CellProblem } from "../../packages/notebooks/src/cells/cellProblem.ts";
import { readNotebook } from "../../packages/notebooks/src/cells/notebook.ts";
import { tangled } from "../../packages/notebooks/src/cells/tangled.ts";
import { markdownOf } from "../support/notebook.ts";

const NAMES = ["a", "b", "c", "d"];
const name = fc.constantFrom(...NAMES);

/** Expressions whose every part is run, with names bound in all the ways of the language. */
const { expression } = fc.letrec<{ expression: string }>((tie) => {
  const inner = tie("expression");
  const written = (write: (...parts: readonly string[]) => string): fc.Arbitrary<string> =>
    fc.tuple(name, name, inner, inner).map((parts) => write(...parts));
  return {
    expression: fc.oneof(
      { maxDepth: 4, withCrossShrink: true },
      name,
      written((x) => `${x}`),
      written((x, y, e, f) => `((${x}) => (${e}) + ${y})(${f})`),
      written((x, _, e, f) => `((${x}, q = ${f}) => (${e}))(1)`),
      written((x, y, e, f) => `(({ ${x}: q, [${y}]: r, ...${x} }) => (${e}))({ ${y}: (${f}) })`),
      written((x, y, e, f) => `(([q, ...${y}]) => (${e}) + ${x})([(${f})])`),
      written((x, y, e, f) => `({ ${x}: (${e}), [${y}]: (${f}) }).${x}`),
      written((x, y, e, f) => `(() => { const ${x} = 1; { const ${y} = 2; (${e}); } return (${f}); })()`),
      written((x, _, e, f) => `(() => { (${e}); if (1) { var ${x} = 1; } return (${f}); })()`),
      written((x, _, e, f) => `(() => { function ${x}() { return (${e}); } return ${x}() + (${f}); })()`),
      written((x, _, e, f) => `(function ${x}() { return (${e}); })() + (${f})`),
      written((x, y, e) => `(() => { try { throw 1; } catch (${x}) { (${e}); } return ${y}; })()`),
      written((x, _, e, f) => `(() => { for (const ${x} of [1]) (${e}); return (${f}); })()`),
      written((x, _, e, f) => `(() => { for (let ${x} = 0; ${x} < 1; ${x}++) (${e}); return (${f}); })()`),
      written((x, y, e) => `(() => { ${x}: for (;;) { (${e}); break ${x}; } return ${y}; })()`),
      written((x, _, e, f) => `new (class ${x} { ${x} = (${e}); m() { return (${f}); } })().m()`),
      written((x, _, e) => `\`\${${x}} and \${(${e})}\``),
      written((x, _, e, f) => `(() => { switch (1) { case 1: let ${x} = 1; (${e}); } return (${f}); })()`),
    ),
  };
});

/** The names that running code looks up outside; none of that where it uses a name before its declaration has run. */
function lookedUp(code: string): readonly string[] | undefined {
  const found = new Set<string>();
  const scope = new Proxy(
    {},
    {
      has: (_, key) => typeof key === "string" && NAMES.includes(key) && Boolean(found.add(key)),
      get: (_, key) => (typeof key === "string" ? 1 : undefined),
    },
  );
  try {
    new Function("scope", `with (scope) { return (${code}); }`)(scope);
  } catch (error) {
    if (error instanceof ReferenceError) return undefined;
    throw error;
  }
  return [...found].sort();
}

const problemOf = (markdown: string): string => {
  try {
    readNotebook(markdown, "some.md");
  } catch (error) {
    if (error instanceof CellProblem) return error.message;
    throw error;
  }
  return "none";
};

describe("the names that a cell takes from outside", () => {
  it("are those that it looks up when it runs", () => {
    fc.assert(
      fc.property(expression, (code) => {
        const seen = lookedUp(code);
        fc.pre(seen !== undefined);
        const text = { kind: "fence", code: `(${code})`, line: 1, column: 1, isFoldable: true } as const;
        const needs = new Set(cellOf(text, "test.md").refersTo.map((one) => one.name));
        expect([...needs].filter((one) => NAMES.includes(one)).sort()).toEqual(seen);
      }),
      { numRuns: 600 },
    );
  });

  it("are not those in types, of properties, of labels", () => {
    const cell = "const x: typeof a = { b: 1 } as unknown as X;\ntype a = d; interface X { b: a }\nx.d;";
    const [first] = readNotebook(markdownOf("const a = 1, b = 2, d = 4;", cell), "t").cells;
    expect(first?.needs).toEqual([]);
    const { cells } = readNotebook(markdownOf("const a = 1;", "const y = <a,>(z: a): a => z;"), "t");
    expect(cells[1]?.needs).toEqual([]);
  });
});

describe("what is wrong with a notebook is said at the Markdown's line and column", () => {
  it.each([
    [
      "a name declared twice",
      ["const a = 1;", "const b = 1;\nconst a = 2;"],
      '9:7: "a" is declared already on line 4',
    ],
    [
      "declared twice by destructuring",
      ["const [a] = [1];", "const { b: a } = { b: 2 };"],
      '8:12: "a" is declared',
    ],
    [
      "imported and declared",
      ['import { a } from "x";', "const a = 2;"],
      '8:7: "a" is declared already on line 4',
    ],
    ["a need of what stands below", ["show(a);", "const a = 2;"], '4:6: "a" is declared below, on line 8'],
    [
      "a circle",
      ["const a = () => b;", "const b = a();"],
      '4:17: "b" is declared below, on line 8, which needs this cell in turn: a circle',
    ],
    ["let", ["let a = 1;"], '4:1: a cell declares "const"'],
    ["an export", ["export const a = 1;"], "4:1: a cell exports nothing"],
    ["a syntax error", ["const a = 1;\nconst b = (;"], "5:12: "],
    ["ask within an expression", ["const a = 2 * ask(x);"], "4:15: ask(…) stands alone"],
    ["an answer used where it is asked", ["const a = ask(x);\nshow(a);"], '5:6: "a" is asked in this cell'],
    ["a word of the cells declared", ["const show = 1;"], '4:7: "show" is a word'],
  ])("%s", (_, cells, words) => {
    expect(problemOf(markdownOf(...cells))).toContain(`some.md:${words}`);
  });

  it("a formula, a value over two lines, a cell in a list, a mark that is none, no heading", () => {
    expect(problemOf("# A\n\nThe $\\frac{1$.")).toMatch(/^some\.md:3:1: KaTeX/);
    expect(problemOf("# A\n\nIt is {{1 +\n2}}.")).toMatch(/^some\.md:3:1: .*one line/);
    expect(problemOf("# A\n\n- x\n\n  ```ts\n  1;\n  ```")).toMatch(/^some\.md:5:1: .*by itself/);
    expect(problemOf("# A\n\n```ts quietly\n1;\n```")).toMatch(/^some\.md:3:1: .*"ts hidden"/);
    expect(problemOf("Text")).toMatch(/^some\.md:1:1: .*heading/);
    expect(problemOf("# A\n\n{{const a = 1}}")).toMatch(/^some\.md:3:3: /);
  });
});

it("one name in several scopes is one declaration at most", () => {
  const markdown = markdownOf(
    "const a = [1].map((b) => b);",
    "{ const a = 2; show(a); }",
    "const b = a.length;",
  );
  expect(readNotebook(markdown, "t").cells.map(({ needs }) => needs)).toEqual([[], [], ["a"]]);
});

describe("prose", () => {
  it("keeps dollars, escapes tags, and makes places for cells and values", () => {
    const { body, cells, title } = readNotebook(
      "# The *price*\n\n5 $ and 6 $, <b>x</b> {{1 + 1}} `{{2}}` and {{ 3 }}.\n\n```ts\nshow(1);\n```\n\n```js\nno();\n```\n",
      "t",
    );
    expect(title).toBe("The *price*");
    expect(body).toContain("5 $ and 6 $, &lt;b&gt;x&lt;/b&gt;");
    expect(body).toContain("<code>{{2}}</code>");
    expect(cells.map(({ kind, code }) => [kind, code.trim()])).toEqual([
      ["value", "1 + 1"],
      ["value", "3"],
      ["fence", "show(1);"],
    ]);
    expect([...body.matchAll(/data-cell="(\d)"/g)].map(([, number]) => number)).toEqual(["0", "1", "2"]);
  });

  it("is tangled with every character of code at its line and column", () => {
    const line = fc.constantFrom(
      "Words $x$.",
      "",
      "Twice {{a  + 1}} and {{ b}}, {{a  + 1}}",
      "- {{c}}",
      "> {{d}}",
    );
    const cell = fc.constantFrom("```ts\nshow(1);\n  show(2);\n```", "```js\nno\n```");
    fc.assert(
      fc.property(fc.array(fc.oneof(line, cell), { maxLength: 12 }), (blocks) => {
        const markdown = `# Head\n\n${blocks.join("\n\n")}\n`;
        const source = markdown.split("\n");
        const { cells } = readNotebook(markdown, "t");
        const lines = tangled(cells).split("\n");
        lines.forEach((text, at) => {
          // what stands for the braces is of the same width
          const code = text.replaceAll(/;\((.+?)\);/g, "  $1  ");
          [...code].forEach((sign, column) => {
            if (sign !== " ") expect(source[at]?.[column]).toBe(sign);
          });
        });
        const signs = (texts: readonly string[]): number => texts.join("").replaceAll(/\s/g, "").length;
        const values = cells.filter(({ kind }) => kind === "value").length;
        expect(signs(lines)).toBe(signs(cells.map(({ code }) => code)) + "();;".length * values);
      }),
    );
  });
});
