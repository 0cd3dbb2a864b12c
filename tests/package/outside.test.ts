/**
 * The library as others have it: packed, installed by npm and by pnpm into projects of their own, with nothing of the workspace beside it.
 *
 * INPUTS: the tarball. Bounds of size are what was measured when they were written, and a margin for growth that nobody would mind.
 */
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  dependOn,
  npmInstall,
  outputOf,
  packedLibrary,
  pnpmInstall,
  root,
} from "../support/outsideProject.ts";
import { seasonFolder } from "../support/seasonFolder.ts";
import { tryBundles } from "./outside/bundles.ts";
import { tryExamples } from "./outside/examples.ts";

const tool = (name: string): string => join(root, "tests", "node_modules", ".bin", name);
const node = (options: readonly string[], folder: string) => outputOf(process.execPath, options, folder);

let folder: string;
let tarball: string;
let byNpm: string;
let byPnpm: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-outside-"));
  tarball = await packedLibrary(folder);
  [byNpm, byPnpm] = [join(folder, "npm"), join(folder, "pnpm")];
  for (const project of [byNpm, byPnpm]) {
    await mkdir(project);
    await dependOn(tarball, project);
  }
  await Promise.all([npmInstall(byNpm), pnpmInstall(byPnpm)]);
});

afterAll(() => rm(folder, { recursive: true, force: true }));

const installed = (...path: readonly string[]): string =>
  join(byNpm, "node_modules", "@bothtacks", "core", ...path);

describe("the tarball", () => {
  it("holds what its manifest names, licence, provenance and schemas, and nothing of the workspace's own", async () => {
    const text = await readFile(installed("package.json"), "utf8");
    const manifest: {
      readonly exports: Readonly<Record<string, string | Readonly<Record<string, string>>>>;
      readonly bin: Readonly<Record<string, string>>;
    } = JSON.parse(text);
    const named = [manifest.exports, manifest.bin]
      .flatMap((paths) => Object.values(paths))
      .flatMap((path) => (typeof path === "string" ? [path] : Object.values(path)))
      .filter((path) => !path.includes("*"));
    expect(named.length).toBeGreaterThanOrEqual(10);
    const documents = [
      "LICENSE",
      "README.md",
      "CHANGELOG.md",
      "docs/references.md",
      "dist/bundle/LICENCES.txt",
    ];
    for (const path of [...named, ...documents, "schemas/boat-1.schema.json"])
      expect((await readFile(installed(path))).length, path).toBeGreaterThan(0);
    expect(text).not.toContain("bothtacks-source");
    const files = await readdir(installed(), { recursive: true });
    expect(files.filter((file) => /\.test\.|tsbuildinfo|node_modules/.test(file))).toEqual([]);
  });

  it("is clean to publint and to are-the-types-wrong", async () => {
    const [lint, types] = await Promise.all([
      outputOf(tool("publint"), [tarball, "--strict"], folder),
      outputOf(tool("attw"), [tarball, "--profile", "esm-only"], folder),
    ]);
    expect(lint).toMatchObject({ status: 0, output: expect.stringContaining("All good!") });
    expect(types, types.output).toMatchObject({ status: 0 });
  });
});

describe.each(["npm", "pnpm"])("installed by %s", (by) => {
  const project = (): string => (by === "npm" ? byNpm : byPnpm);

  it("is imported, each entry point by its name", async () => {
    await writeFile(
      join(project(), "all.mjs"),
      `import { metresPerSecond } from "@bothtacks/core";
       import { radians } from "@bothtacks/core/physics";
       import { Nmea0183Reader } from "@bothtacks/core/readers";
       import { logFile } from "@bothtacks/core/node";
       import { knots } from "@bothtacks/core/bundle";
       import schema from "@bothtacks/core/schemas/boat-1.schema.json" with { type: "json" };
       console.log(metresPerSecond(3600 / 1852), radians(0), typeof Nmea0183Reader, typeof logFile, knots(0), schema.title.slice(0, 9));`,
    );
    const { output } = await node(["--no-warnings", "all.mjs"], project());
    expect(output).toBe("1 0 function function 0 Boat file\n");
  });

  it("is required by CommonJS", async () => {
    await writeFile(
      join(project(), "all.cjs"),
      `const { windOverWater } = require("@bothtacks/core");
       const { liveState } = require("@bothtacks/core/physics");
       console.log(windOverWater({ angle: 0, speed: 5 }, 0, { direction: 0, speed: 2 }).speed, typeof liveState);`,
    );
    expect((await node(["--no-warnings", "all.cjs"], project())).output).toBe("3 function\n");
  });

  it("brings its command", async () => {
    const bin = join(project(), "node_modules", ".bin", "bothtacks");
    expect(await outputOf(bin, ["--version"], project())).toEqual({ status: 0, output: "0.1.0\n" });
  });
});

describe("its command", () => {
  it("reads the logs of a folder in threads of its own program, and the same without", async () => {
    await seasonFolder(join(byNpm, "season"), { share: 0.2 });
    const main = join(byNpm, "node_modules", "@bothtacks", "core", "dist", "cli", "main.js");
    const check = async (...options: readonly string[]) =>
      (await node([main, "check", "season", ...options], byNpm)).output;
    const one = await check("--threads", "1", "--no-cache");
    expect(one).toContain("season/later/3.log");
    expect(await check("--threads", "2", "--no-cache")).toBe(one);
  });
});

const COMPILERS = {
  "TypeScript 6": join(root, "scripts", "apiSite", "node_modules", "typescript", "bin", "tsc"),
  "TypeScript 7": join(root, "node_modules", "typescript", "bin", "tsc"),
};

const RESOLUTIONS = {
  nodenext: { module: "nodenext", moduleResolution: "nodenext" },
  node20: { module: "node20" },
  bundler: { module: "esnext", moduleResolution: "bundler" },
};

describe("types", () => {
  beforeAll(() =>
    writeFile(
      join(byNpm, "user.ts"),
      `import { type BoatFit, calibrateLogs, degrees, radians, type Radians, windOverWater } from "@bothtacks/core";
       import { liveState, liveWindInto } from "@bothtacks/core/physics";
       import { Nmea0183Reader } from "@bothtacks/core/readers";
       import { logFile } from "@bothtacks/core/node";
       import { knots } from "@bothtacks/core/bundle";
       export const half: Radians = radians(180);
       // @ts-expect-error degrees are not radians
       export const wrong: Radians = degrees(half);
       // @ts-expect-error an unsolved fit has no standard deviations
       export const certain = (fit: BoatFit) => fit.parameters[0].sd;
       export { calibrateLogs, knots, liveState, liveWindInto, logFile, Nmea0183Reader, windOverWater };\n`,
    ),
  );

  const configFor = (compiler: string, resolution: string): string =>
    join(byNpm, `tsconfig.${compiler.slice(-1)}.${resolution}.json`);

  async function writeConfig(compiler: string, resolution: keyof typeof RESOLUTIONS): Promise<void> {
    const compilerOptions = {
      ...RESOLUTIONS[resolution],
      noEmit: true,
      strict: true,
      target: "es2023",
      lib: ["es2023", "dom"],
      types: [],
      // the declarations are looked into once, by the faster compiler; ways of resolving differ in what they find
      skipLibCheck: compiler === "TypeScript 6" || resolution !== "nodenext",
    };
    await writeFile(configFor(compiler, resolution), JSON.stringify({ compilerOptions, files: ["user.ts"] }));
  }

  const resolutions = Object.keys(RESOLUTIONS) as readonly (keyof typeof RESOLUTIONS)[];

  it.each(Object.entries(COMPILERS))(
    `compile under ${resolutions.join(", ")} with %s`,
    async (compiler, program) => {
      await Promise.all(resolutions.map((resolution) => writeConfig(compiler, resolution)));
      // one process for all ways of resolving: what they have in common is parsed once
      const configs = resolutions.map((resolution) => configFor(compiler, resolution));
      expect(await node([program, "-b", ...configs], byNpm)).toEqual({ status: 0, output: "" });
    },
  );
});

tryBundles(() => byNpm);
tryExamples(() => byNpm);
