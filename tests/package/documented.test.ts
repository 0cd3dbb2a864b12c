/**
 * Everything that the entry points export is documented: in words, with units, what comes back and what is thrown, and with an example, which
 * is run.
 *
 * INPUTS: the sources' own comments. Where an example's value was published by others, it says by whom; the tests under `published` hold all
 *   of theirs.
 */
import { rm } from "node:fs/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { claimOf, exampleNames, runExample } from "../support/exampleNames.ts";
import { type PublicExport, publicSurface, type Quantity } from "../support/publicSurface.ts";

const surface = publicSurface();
const named = ({ name, place }: PublicExport): string => `${name} (${place})`;

/** Types that say the unit, or that hold no number. */
const isPlainNumber = ({ type }: Quantity): boolean =>
  /^(readonly )?(number|number\[\]|ArrayLike<number>|Float64Array)( \| undefined)?$/.test(type);

/** A unit, or the words by which something says that it has none or any. */
const UNIT =
  /\brad\b|rad²|°|\bm\/s\b|m²\/s²|\bm\b|\bs\b|√s|\bns\b|\bHz\b|\bkn\b|\bunits?\b|SI and radians|\bshare\b|factor|how many|number of|\bindex\b|\bindices\b|places in|deviations?\b|\bwhole\b|\bratio\b|likelihood|bytes|percent|%|degree of|probability|χ²|correlation|\bln\b|singular|0 to 1|from 0|\(0, 1\]/i;

describe("every export", () => {
  it("there are as many as one knows of", () => {
    expect(surface.length).toBeGreaterThan(350);
    expect(surface.some(({ name }) => name === "liveWindInto")).toBe(true);
  });

  it("is described in words", () => {
    expect(surface.filter(({ words }) => words.trim() === "").map(named)).toEqual([]);
  });

  it("says what it throws, or that it never does, where it is a function", () => {
    expect(surface.filter(({ isFunction, saysThrows }) => isFunction && !saysThrows).map(named)).toEqual([]);
  });

  it("names the unit of each number that a caller hands over or reads", () => {
    const without = surface.flatMap((each) =>
      each.quantities
        .filter(
          (quantity) =>
            isPlainNumber(quantity) &&
            !UNIT.test(
              `${quantity.words} ${quantity.name.split(/[.(]/)[0] === each.name && each.isFunction ? "" : each.words}`,
            ),
        )
        .map((quantity) => `${quantity.name} (${each.place})`),
    );
    expect(without).toEqual([]);
  });

  it("is shown in an example, a type by something whose declaration names it", () => {
    const shown = new Set(surface.filter(({ examples }) => examples.length > 0).map(({ name }) => name));
    for (let before = -1; before !== shown.size; ) {
      before = shown.size;
      for (const { name, declaration } of surface)
        if (shown.has(name))
          for (const other of surface)
            if (!other.isValue && new RegExp(`\\b${other.name}\\b`).test(declaration)) shown.add(other.name);
    }
    expect(surface.filter(({ name }) => !shown.has(name)).map(named)).toEqual([]);
  });
});

describe("every example", () => {
  let names: Readonly<Record<string, unknown>>;
  beforeAll(async () => {
    names = await exampleNames();
  });
  afterAll(() => rm(String(names.folder), { recursive: true }));

  const examples = surface.flatMap((each) => each.examples.map((code) => ({ name: named(each), code })));

  it("most say a value", () => {
    const claims = examples.flatMap(({ code }) => code.split("\n").flatMap((line) => claimOf(line) ?? []));
    expect(claims.length).toBeGreaterThan(0.8 * examples.length);
  });

  it.each(examples)("of $name", async ({ code }) => {
    await runExample(code, names, (actual, expected) => expect(actual).toEqual(expected));
  });
});
