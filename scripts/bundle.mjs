// packages/core/dist/bundle/bothtacks.js: the whole library with what it depends on in one module, for pages without a build step;
// beside it the licences of what is in it. Needs packages/core/dist.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const core = fileURLToPath(new URL("../packages/core/", import.meta.url));
const folder = join(core, "dist", "bundle");

const [{ output }] = await build({
  configFile: false,
  logLevel: "warn",
  root: core,
  build: {
    outDir: folder,
    lib: { entry: join(core, "dist", "index.js"), formats: ["es"], fileName: () => "bothtacks.js" },
    rolldownOptions: { output: { minify: true, comments: { legal: true } } },
  },
});

/** The folders of the packages that the bundle holds a part of. */
const packages = new Set(
  output
    .flatMap(({ moduleIds = [] }) => moduleIds)
    .flatMap((id) => id.match(/^.*node_modules\/(?:@[^/]+\/)?[^/]+/) ?? []),
);

const licences = await Promise.all(
  [...packages].sort().map(async (path) => {
    const { name, version, license } = JSON.parse(await readFile(join(path, "package.json"), "utf8"));
    return `${name} ${version} (${license})\n\n${(await readFile(join(path, "LICENSE"), "utf8")).trim()}\n`;
  }),
);
await writeFile(
  join(folder, "LICENCES.txt"),
  `bothtacks.js holds parts of these packages.\n\n${licences.join(`\n${"-".repeat(80)}\n\n`)}`,
);
