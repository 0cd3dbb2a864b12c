import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import type * as TypeScript from "../../scripts/apiSite/node_modules/typescript/lib/typescript.d.ts";

// TypeScript 7 has no interface for tools: the API site's own is used
const ts = createRequire(new URL("../../scripts/apiSite/package.json", import.meta.url))(
  "typescript",
) as typeof TypeScript;

const core = fileURLToPath(new URL("../../packages/core/", import.meta.url));

/** The published entry points by the path of their source. */
export const ENTRIES = {
  "@bothtacks/core": `${core}src/index.ts`,
  "@bothtacks/core/physics": `${core}src/entries/physics.ts`,
  "@bothtacks/core/readers": `${core}src/entries/readers.ts`,
  "@bothtacks/core/node": `${core}src/node/index.ts`,
} as const;

/** A number that a caller hands over or is given, and what is written about it. */
export interface Quantity {
  /** `windOverWater(heading)` or `Boat.mastHeight`. */
  readonly name: string;
  /** As the type is written. */
  readonly type: string;
  readonly words: string;
}

export interface PublicExport {
  readonly name: string;
  readonly entry: string;
  /** File and line. */
  readonly place: string;
  readonly isValue: boolean;
  readonly words: string;
  readonly examples: readonly string[];
  /** The text of its declaration, without comments. */
  readonly declaration: string;
  /** Parameters of functions, constructors and methods; fields of interfaces. */
  readonly quantities: readonly Quantity[];
  /** Parameters that no `@param` nor type speaks of are found by these. */
  readonly isFunction: boolean;
  readonly saysThrows: boolean;
  readonly saysReturns: boolean;
}

const wordsOf = (symbol: TypeScript.Symbol, checker: TypeScript.TypeChecker): string =>
  ts.displayPartsToString(symbol.getDocumentationComment(checker));

function quantitiesOfParameters(
  name: string,
  signature: TypeScript.SignatureDeclaration,
  checker: TypeScript.TypeChecker,
): readonly Quantity[] {
  return signature.parameters.map((parameter) => {
    const symbol = checker.getSymbolAtLocation(parameter.name);
    const tags = ts.getJSDocParameterTags(parameter).map(({ comment }) => ts.getTextOfJSDocComment(comment));
    return {
      name: `${name}(${parameter.name.getText().replace(/\s+/g, " ")})`,
      type: parameter.type?.getText() ?? checker.typeToString(checker.getTypeAtLocation(parameter)),
      words: [symbol ? wordsOf(symbol, checker) : "", ...tags].join(" "),
    };
  });
}

function quantitiesOfMembers(
  name: string,
  members: readonly TypeScript.Node[],
  checker: TypeScript.TypeChecker,
): readonly Quantity[] {
  return members.flatMap((member) => {
    if (ts.isPropertySignature(member)) {
      const symbol = checker.getSymbolAtLocation(member.name);
      const field = {
        name: `${name}.${member.name.getText()}`,
        type: member.type?.getText() ?? "",
        words: symbol ? wordsOf(symbol, checker) : "",
      };
      return member.type && ts.isTypeLiteralNode(member.type)
        ? [
            field,
            // what is said of the whole is said of its parts
            ...quantitiesOfMembers(field.name, member.type.members, checker).map((part) => ({
              ...part,
              words: `${field.words} ${part.words}`,
            })),
          ]
        : [field];
    }
    const isPrivate = ts.isClassElement(member) && member.name && ts.isPrivateIdentifier(member.name);
    if ((ts.isMethodDeclaration(member) || ts.isConstructorDeclaration(member)) && !isPrivate)
      return quantitiesOfParameters(
        `${name}.${ts.isConstructorDeclaration(member) ? "constructor" : member.name.getText()}`,
        member,
        checker,
      );
    return [];
  });
}

function quantitiesOf(
  name: string,
  declaration: TypeScript.Declaration,
  checker: TypeScript.TypeChecker,
): readonly Quantity[] {
  if (ts.isFunctionDeclaration(declaration)) return quantitiesOfParameters(name, declaration, checker);
  if (ts.isVariableDeclaration(declaration) && declaration.initializer)
    return ts.isArrowFunction(declaration.initializer)
      ? quantitiesOfParameters(name, declaration.initializer, checker)
      : [];
  if (ts.isInterfaceDeclaration(declaration) || ts.isClassDeclaration(declaration))
    return quantitiesOfMembers(name, [...declaration.members], checker);
  return [];
}

const isFunctionLike = (declaration: TypeScript.Declaration): boolean =>
  ts.isFunctionDeclaration(declaration) ||
  (ts.isVariableDeclaration(declaration) &&
    declaration.initializer !== undefined &&
    ts.isArrowFunction(declaration.initializer));

/** The declaration without the body of a function, or of a class's methods. */
function signatureText(declaration: TypeScript.Declaration): string {
  const text = declaration.getText();
  if (ts.isFunctionDeclaration(declaration) && declaration.body)
    return text.slice(0, declaration.body.getStart() - declaration.getStart());
  if (
    ts.isVariableDeclaration(declaration) &&
    declaration.initializer &&
    ts.isArrowFunction(declaration.initializer)
  )
    return text.slice(0, declaration.initializer.body.getStart() - declaration.getStart());
  return text.replace(/\/\*[\s\S]*?\*\//g, "");
}

/** Everything that the published entry points export, each by the first entry that exports it. */
export function publicSurface(): readonly PublicExport[] {
  const program = ts.createProgram(Object.values(ENTRIES), {
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    lib: ["lib.es2023.d.ts", "lib.webworker.d.ts"],
    types: [],
    strict: true,
    noEmit: true,
    allowImportingTsExtensions: true,
    skipLibCheck: true,
  });
  const checker = program.getTypeChecker();
  const found = new Map<TypeScript.Symbol, PublicExport>();
  for (const [entry, path] of Object.entries(ENTRIES)) {
    const source = program.getSourceFile(path);
    const module = source && checker.getSymbolAtLocation(source);
    if (!module) throw new Error(`publicSurface: ${path} is no module`);
    for (const exported of checker.getExportsOfModule(module)) {
      const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
      if (found.has(symbol)) continue;
      const [declaration] = symbol.declarations ?? [];
      if (!declaration) throw new Error(`publicSurface: ${exported.name} has no declaration`);
      const file = declaration.getSourceFile();
      const { line } = file.getLineAndCharacterOfPosition(declaration.getStart());
      const tags = symbol.getJsDocTags(checker);
      found.set(symbol, {
        name: exported.name,
        entry,
        place: `${file.fileName.slice(core.length)}:${line + 1}`,
        isValue: (symbol.flags & ts.SymbolFlags.Value) !== 0,
        words: [
          wordsOf(symbol, checker),
          ...tags.filter(({ name }) => name !== "example").map(({ text }) => ts.displayPartsToString(text)),
        ].join(" "),
        examples: tags
          .filter(({ name }) => name === "example")
          .map(({ text }) => ts.displayPartsToString(text)),
        declaration: (symbol.declarations ?? []).map(signatureText).join("\n"),
        quantities: (symbol.declarations ?? []).flatMap((each) => quantitiesOf(exported.name, each, checker)),
        isFunction: isFunctionLike(declaration),
        saysThrows:
          tags.some(({ name }) => name === "throws") ||
          /never throws|throws/i.test(
            wordsOf(symbol, checker) + tags.map(({ text }) => ts.displayPartsToString(text)).join(" "),
          ),
        saysReturns: tags.some(({ name }) => name === "returns"),
      });
    }
  }
  return [...found.values()];
}
