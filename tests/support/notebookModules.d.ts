declare module "*.md" {
  const notebook: import("../../packages/notebooks/src/run/notebook.ts").Notebook;
  export default notebook;
}

declare module "*?worker&inline" {
  const WorkerOfIt: new () => Worker;
  export default WorkerOfIt;
}

declare module "*/scripts/serve.mjs" {
  export function serve(site: {
    readonly file: (name: string) => Promise<string | Uint8Array | undefined>;
    readonly first: string;
    readonly changes: string;
  }): Promise<{ readonly address: string; readonly changed: () => void; readonly close: () => void }>;
}

declare module "*/scripts/serveAll.mjs" {
  export function serveAll(
    results: string,
  ): Promise<{ readonly address: string; readonly close: () => void }>;
}

declare module "*?raw" {
  const text: string;
  export default text;
}

declare module "*?url&inline" {
  const address: string;
  export default address;
}
