import { transformWithOxc } from "vite";
import type { LinkedCell, ReadNotebook } from "./notebook.ts";

const WORDS = "{ ask, show, signal }";

function runnable({ kind, code, line, declares, needs, asks, bodyCode }: LinkedCell): string {
  const names = declares.map(({ name }) => name);
  const body = kind === "value" ? `show(\n${code}\n);` : bodyCode;
  return `{
line: ${line}, declares: ${JSON.stringify(names)}, needs: ${JSON.stringify(needs)}, asks: ${JSON.stringify(asks)},
run: async ({ ${needs.join(", ")} }: any, ${WORDS}: any) => {
${body}
return { ${names.join(", ")} };
},
}`;
}

/**
 * The notebook as a module of JavaScript: its imports, and a `Notebook` as its default export.
 *
 * @throws Error where the code cannot be transformed
 */
export async function compiled({ title, cells, file }: ReadNotebook): Promise<string> {
  const imports = cells.map(({ importCode }) => importCode).filter((code) => code !== "");
  const source = `${imports.join("\n")}
export default { title: ${JSON.stringify(title)}, cells: [${cells.map(runnable).join(", ")}] };
`;
  const { code } = await transformWithOxc(source, `${file}.ts`, { lang: "ts", sourcemap: false });
  return code;
}
