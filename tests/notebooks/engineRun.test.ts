/**
 * Notebooks that run.
 * INPUTS: notebooks drawn at random, whose sums are worked out here anew, and some by hand. MARGIN: none.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CellWords, Input } from "../../packages/notebooks/src/contract.ts";
import type { Names, Notebook, RunnableCell } from "../../packages/notebooks/src/run/notebook.ts";
import { runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { Session } from "../../packages/notebooks/src/run/session.ts";
import { markdownOf, notebookOf, numberIn, outcomes } from "../support/notebook.ts";
import everyPart from "../support/notebookFixture/every-part.md";

/** An input that nothing draws. */
const input = (initial: number): Input<number> => ({ label: "A number", initial, draw: () => undefined });

/** Cells by name: each asks for one number, and adds it to the sums of some cells above; below zero it fails. */
interface Sums {
  readonly above: readonly (readonly number[])[];
  readonly initial: readonly number[];
}

const sums: fc.Arbitrary<Sums> = fc.integer({ min: 1, max: 9 }).chain((count) =>
  fc.record({
    above: fc.tuple(
      ...Array.from({ length: count }, (_, index) =>
        index === 0
          ? fc.constant([])
          : fc.uniqueArray(fc.integer({ min: 0, max: index - 1 }), { maxLength: 3 }),
      ),
    ),
    initial: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: count, maxLength: count }),
  }),
);

/** As cells: two for each sum, one that asks and one that adds; `ran` hears of each that adds. */
function notebookOfSums({ above, initial }: Sums, ran: (index: number) => void): Notebook {
  const cells = above.flatMap((needed, index): readonly RunnableCell[] => [
    {
      line: 10 * index,
      declares: [`own${index}`],
      needs: [],
      asks: [`own${index}`],
      run: async (_: Names, { ask }: CellWords) => ({ [`own${index}`]: ask(input(initial[index] ?? 0)) }),
    },
    {
      line: 10 * index + 5,
      declares: [`sum${index}`],
      needs: [`own${index}`, ...needed.map((other) => `sum${other}`)],
      asks: [],
      run: async (names: Names) => {
        ran(index);
        const own = Number(names[`own${index}`]);
        if (own < 0) throw new Error("below zero");
        if (index % 2 === 1) await Promise.resolve();
        return { [`sum${index}`]: needed.reduce((sum, other) => sum + Number(names[`sum${other}`]), own) };
      },
    },
  ]);
  return { title: "Sums", cells };
}

/** The sums as they must be; none for what fails or needs what fails. */
function sumsOf({ above }: Sums, own: readonly number[]): readonly (number | undefined)[] {
  const all: (number | undefined)[] = [];
  above.forEach((needed, index) => {
    const parts = [own[index]! < 0 ? undefined : own[index], ...needed.map((other) => all[other])];
    all.push(
      parts.includes(undefined) ? undefined : parts.reduce((sum: number, part) => sum + (part ?? 0), 0),
    );
  });
  return all;
}

/** Those that depend on one, itself included. */
function dependents({ above }: Sums, on: number): ReadonlySet<number> {
  const found = new Set([on]);
  above.forEach((needed, index) => {
    if (needed.some((other) => found.has(other))) found.add(index);
  });
  return found;
}

describe("when answers change", () => {
  it("only what depends on them runs, in an order of needs, and all comes out as in a run from the start", async () => {
    const changes = fc.array(fc.tuple(fc.nat(8), fc.integer({ min: -3, max: 9 })), { maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(sums, changes, async (drawn, changed) => {
        const order: number[] = [];
        const run = await runNotebook(notebookOfSums(drawn, (index) => order.push(index)));
        const own = [...drawn.initial];
        for (const [at, value] of changed) {
          const index = at % own.length;
          own[index] = value;
          order.length = 0;
          await run.answer(`own${index}`, value);
          const expected = sumsOf(drawn, own);
          expect(own.map((_, each) => run.names()[`sum${each}`])).toEqual(expected);
          const can = [...dependents(drawn, index)].filter((each) =>
            (drawn.above[each] ?? []).every((other) => expected[other] !== undefined),
          );
          expect([...order].sort()).toEqual([...new Set(order)].sort());
          expect([...order].sort()).toEqual(can.sort());
          const places = new Map(order.map((each, place) => [each, place]));
          for (const each of order)
            for (const other of drawn.above[each] ?? [])
              expect(places.get(other) ?? -1).toBeLessThan(places.get(each)!);
        }
      }),
      { numRuns: 150 },
    );
  });

  it("what is given by name stands for the initial value from the start", async () => {
    const notebook = notebookOfSums({ above: [[], [0]], initial: [1, 2] }, () => undefined);
    const run = await runNotebook(notebook, { own0: 5 });
    expect(numberIn(run, "sum1")).toBe(7);
    await expect(run.answer("sum1", 3)).rejects.toThrow(/no input of this notebook is called "sum1"/);
  });
});

describe("an input whose cell runs again", () => {
  it("keeps the reader's answer as long as it may stand", async () => {
    const bounded = (most: number): Input<number> => ({ ...input(1), accepts: (value) => value <= most });
    const cells: readonly RunnableCell[] = [
      {
        line: 1,
        declares: ["most"],
        needs: [],
        asks: ["most"],
        run: async (_, { ask }) => ({ most: ask(input(5)) }),
      },
      {
        line: 3,
        declares: ["chosen"],
        needs: ["most"],
        asks: ["chosen"],
        run: async ({ most }, { ask }) => ({ chosen: ask(bounded(Number(most))) }),
      },
    ];
    const run = await runNotebook({ title: "Bounded", cells });
    await run.answer("chosen", 4);
    await run.answer("most", 9);
    expect(run.names().chosen).toBe(4);
    await run.answer("most", 3);
    expect(run.names().chosen).toBe(1);
  });
});

describe("a run that is out of date", () => {
  it("is aborted, shows nothing more and changes nothing", async () => {
    const gates: (() => void)[] = [];
    const signals: AbortSignal[] = [];
    const shown: unknown[] = [];
    const cells: readonly RunnableCell[] = [
      { line: 1, declares: ["a"], needs: [], asks: ["a"], run: async (_, { ask }) => ({ a: ask(input(1)) }) },
      {
        line: 2,
        declares: ["b"],
        needs: ["a"],
        asks: [],
        run: async ({ a }, { show, signal }) => {
          signals.push(signal);
          await new Promise<void>((open) => void gates.push(open));
          show(`a is ${String(a)}`);
          return { b: a };
        },
      },
    ];
    const none = (): void => undefined;
    const stage = { begin: none, ask: none, end: none, show: (_: number, what: unknown) => shown.push(what) };
    const session = new Session({ title: "Slow", cells }, stage);
    session.start();
    await new Promise((soon) => setTimeout(soon));
    session.answer("a", 2);
    session.answer("a", 3);
    expect(signals.map(({ aborted }) => aborted)).toEqual([true, true, false]);
    for (const open of [...gates].reverse()) open();
    await session.settled();
    expect(session.names()).toEqual({ a: 3, b: 3 });
    expect(shown).toEqual([["a is 3"]]);
  });
});

describe("a notebook made from its Markdown", () => {
  it("holds what needs a failed cell, says which, runs the rest, and recovers", async () => {
    const markdown = markdownOf(
      'const a = ask({ label: "a", initial: -1, draw: () => undefined });',
      'if (a < 0) throw new Error("below zero");\nconst root = Math.sqrt(a);',
      "const twice = 2 * root;",
      "const further = twice + 1;",
      "const other = a + 1;",
    );
    const run = await runNotebook(await notebookOf(`${markdown}\n\nIt is {{further}}.`));
    const held = "held by line 8";
    expect(outcomes(run)).toEqual(["done", "Error: below zero", held, held, "done", held]);
    expect(run.names()).toEqual({ a: -1, other: 0 });
    await run.answer("a", 9);
    expect(outcomes(run)).toEqual(Array(6).fill("done"));
    expect(numberIn(run, "further")).toBe(7);
    expect(run.cells().at(-1)?.shown).toEqual([7]);
    await run.answer("a", -4);
    expect(run.names()).toEqual({ a: -4, other: -3 });
  });

  it("freezes the plain things that a cell declares, and nothing else", async () => {
    const run = await runNotebook(
      await notebookOf(
        markdownOf(
          "const list = [{ a: [1] }];\nconst numbers = new Float64Array(2);\nclass Box { n = 1 }\nconst box = new Box();",
          "numbers[0] = 3;\nbox.n = 2;",
          "list[0].a.push(2);",
        ),
      ),
    );
    expect(outcomes(run)).toEqual(["done", "done", expect.stringMatching(/^TypeError: .*not extensible/)]);
  });

  it("keeps what is shadowed apart from what is declared", async () => {
    const run = await runNotebook(
      await notebookOf(
        markdownOf(
          'const x = ask({ label: "x", initial: 1, draw: () => undefined });',
          "const doubled = [1, 2].map((x) => 2 * x);\nconst f = ({ x }) => x;",
          "const sum = doubled.reduce((all, one) => all + one, x) + f({ x: 10 });",
        ),
      ),
    );
    expect(numberIn(run, "sum")).toBe(1 + 6 + 10);
    await run.answer("x", 5);
    expect(numberIn(run, "sum")).toBe(5 + 6 + 10);
  });

  it("has every input, two of a label apart, and takes a file: bad, then good", async () => {
    const run = await runNotebook(everyPart, { otherAngle: 15 });
    expect(numberIn(run, "together")).toBe(45);
    await run.answer("angle", 60);
    expect(numberIn(run, "together")).toBe(75);
    // cos 60° = 1/2
    expect(numberIn(run, "cosine")).toBeCloseTo(0.5, 14);
    await run.answer("files", [new File(["1\n2\nmany\n"], "bad.txt")]);
    expect(run.names()).not.toHaveProperty("sum");
    expect(outcomes(run)).toContain('Error: "many" is not a number');
    await run.answer("files", [new File(["1\n2\n"], "good.txt"), new File(["39"], "more.txt")]);
    expect(numberIn(run, "sum")).toBe(42);
    expect(outcomes(run).every((outcome) => outcome === "done")).toBe(true);
    expect(run.cells().flatMap(({ shown }) => shown)).toContainEqual(
      expect.objectContaining({ height: 260 }),
    );
  });
});
