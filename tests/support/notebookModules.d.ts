declare module "*.md" {
  const notebook: import("../../packages/notebooks/src/run/notebook.ts").Notebook;
  export default notebook;
}

declare module "*?worker&inline" {
  const WorkerOfIt: new () => Worker;
  export default WorkerOfIt;
}
