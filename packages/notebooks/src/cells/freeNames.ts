import { boundBy, declaredBy, isNode, nameOf, nodesIn, type SyntaxNode } from "./syntax.ts";

/** The names that are bound here; looked up outward. */
interface Scope {
  readonly names: ReadonlySet<string>;
  readonly outside: Scope | undefined;
}

const inside = (outside: Scope | undefined, bound: readonly SyntaxNode[]): Scope => ({
  names: new Set(bound.map(nameOf)),
  outside,
});

const isBound = (name: string, scope: Scope | undefined): boolean =>
  scope !== undefined && (scope.names.has(name) || isBound(name, scope.outside));

const FUNCTIONS = ["FunctionDeclaration", "FunctionExpression", "ArrowFunctionExpression"];

/** What is of a type only, and leaves nothing at run time. */
const isOfTypes = ({ type, declare }: SyntaxNode): boolean =>
  declare === true || (type.startsWith("TS") && !VALUES_WITH_TYPES.includes(type));

const VALUES_WITH_TYPES = [
  "TSAsExpression",
  "TSSatisfiesExpression",
  "TSNonNullExpression",
  "TSTypeAssertion",
  "TSInstantiationExpression",
  "TSParameterProperty",
  "TSEnumDeclaration",
  "TSEnumBody",
  "TSEnumMember",
];

/** Fields that hold a name which is no reference. */
function isNoReference({ type, computed }: SyntaxNode, field: string): boolean {
  if (field === "key") return computed !== true;
  if (type === "MemberExpression" && field === "property") return computed !== true;
  if (type === "TSEnumMember" && field === "id") return true;
  return field === "label" || type === "MetaProperty" || type === "ImportDeclaration";
}

const fieldsOf = (node: SyntaxNode): readonly SyntaxNode[] =>
  Object.entries(node).flatMap(([field, value]) => (isNoReference(node, field) ? [] : nodesIn(value)));

/** `var` belongs to the whole function, however deep in its blocks it stands. */
function hoistedIn(node: SyntaxNode): readonly SyntaxNode[] {
  if (FUNCTIONS.includes(node.type) || isOfTypes(node)) return [];
  const own = node.type === "VariableDeclaration" && node.kind === "var" ? declaredBy(node) : [];
  return [...own, ...fieldsOf(node).flatMap(hoistedIn)];
}

/** What a node binds for what lies inside it. */
function boundInside(node: SyntaxNode): readonly SyntaxNode[] {
  const { type } = node;
  if (FUNCTIONS.includes(type)) {
    const own = type === "FunctionExpression" ? nodesIn(node.id) : [];
    return [...own, ...nodesIn(node.params).flatMap(boundBy), ...nodesIn(node.body).flatMap(hoistedIn)];
  }
  if (type === "Program" || type === "BlockStatement" || type === "StaticBlock")
    return nodesIn(node.body).flatMap(declaredBy);
  if (type === "SwitchStatement")
    return nodesIn(node.cases).flatMap(({ consequent }) => nodesIn(consequent).flatMap(declaredBy));
  if (type === "ForStatement") return nodesIn(node.init).flatMap(declaredBy);
  if (type === "ForInStatement" || type === "ForOfStatement") return nodesIn(node.left).flatMap(declaredBy);
  if (type === "CatchClause") return nodesIn(node.param).flatMap(boundBy);
  if (type === "ClassExpression") return nodesIn(node.id);
  if (type === "TSEnumDeclaration")
    return [node, ...nodesIn(node.body).flatMap(({ members }) => nodesIn(members))].flatMap(({ id }) =>
      nodesIn(id),
    );
  return [];
}

const SCOPED = [
  "Program",
  "BlockStatement",
  "StaticBlock",
  "SwitchStatement",
  "ForStatement",
  "ForInStatement",
  "ForOfStatement",
  "CatchClause",
  "ClassExpression",
  "TSEnumDeclaration",
  ...FUNCTIONS,
];

function walk(node: SyntaxNode, around: Scope | undefined, found: (name: SyntaxNode) => void): void {
  if (isOfTypes(node)) return;
  if (node.type === "Identifier") {
    if (!isBound(nameOf(node), around)) found(node);
    nodesIn(node.decorators).forEach((decorator) => void walk(decorator, around, found));
    return;
  }
  const scope = SCOPED.includes(node.type) ? inside(around, boundInside(node)) : around;
  for (const child of fieldsOf(node)) walk(child, scope, found);
}

/**
 * The identifiers that refer to something declared outside the program: names that are shadowed, names of properties and of
 * labels, and names in types are not among them. Globals are.
 *
 * @param program the root of the syntax tree
 * @returns one node for each reference, in the order of the text. Never throws.
 */
export function freeNames(program: unknown): readonly SyntaxNode[] {
  const found: SyntaxNode[] = [];
  if (isNode(program)) walk(program, undefined, (name) => found.push(name));
  return found.sort((one, other) => one.start - other.start);
}
