/** A node of the syntax tree; the parser's own types are wider than a walk needs. */
export interface SyntaxNode {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

export const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === "object" && value !== null && "type" in value && typeof value.type === "string";

/** The nodes in a field, whether it holds one, a list or none. */
export const nodesIn = (value: unknown): readonly SyntaxNode[] =>
  Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : [];

export const nameOf = (node: unknown): string =>
  isNode(node) && node.type === "Identifier" && typeof node.name === "string" ? node.name : "";

/** The identifiers that a pattern binds: `{ a, b: [c = 1], ...d }` binds a, c, d. */
export function boundBy(pattern: SyntaxNode): readonly SyntaxNode[] {
  switch (pattern.type) {
    case "Identifier":
      return [pattern];
    case "ObjectPattern":
      return nodesIn(pattern.properties).flatMap(boundBy);
    case "Property":
      return nodesIn(pattern.value).flatMap(boundBy);
    case "ArrayPattern":
      return nodesIn(pattern.elements).flatMap(boundBy);
    case "AssignmentPattern":
      return nodesIn(pattern.left).flatMap(boundBy);
    case "RestElement":
      return nodesIn(pattern.argument).flatMap(boundBy);
    case "TSParameterProperty":
      return nodesIn(pattern.parameter).flatMap(boundBy);
    default:
      return [];
  }
}

const NAMED = ["FunctionDeclaration", "ClassDeclaration", "TSEnumDeclaration"];
const IMPORTED = ["ImportSpecifier", "ImportDefaultSpecifier", "ImportNamespaceSpecifier"];

/** The identifiers that a statement declares as values in its own block; types declare none. */
export function declaredBy(statement: SyntaxNode): readonly SyntaxNode[] {
  if (statement.declare === true || statement.importKind === "type") return [];
  if (statement.type === "VariableDeclaration")
    return nodesIn(statement.declarations).flatMap(({ id }) => nodesIn(id).flatMap(boundBy));
  if (NAMED.includes(statement.type)) return nodesIn(statement.id);
  if (statement.type !== "ImportDeclaration") return [];
  return nodesIn(statement.specifiers)
    .filter(({ type, importKind }) => IMPORTED.includes(type) && importKind !== "type")
    .flatMap(({ local }) => nodesIn(local));
}
