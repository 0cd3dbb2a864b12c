declare module "*.md" {
  const notebook: import("./notebook.ts").Notebook;
  export default notebook;
}
