import ts from 'typescript';

/** One import: `from` and a `file` target are paths below src; a `package` target is the specifier as written. */
export interface Edge {
  readonly from: string;
  readonly to: string;
  readonly target: 'file' | 'package' | 'unreadable';
  readonly typesOnly: boolean;
  /** Names taken, as the module exports them; `*` for all of it, none for a bare import. */
  readonly names: readonly string[];
}

export interface Room {
  readonly path: string;
  readonly may: readonly string[];
  readonly types?: readonly string[];
}

export interface PackageRule {
  readonly name: string;
  readonly places: readonly string[];
  /** For a package that only gathers others: those whose exports may be named. */
  readonly parts?: readonly string[];
}

type Found = Pick<Edge, 'typesOnly' | 'names'> & { readonly specifier: string | null };

const isUnder = (path: string, place: string) => path === place || path.startsWith(`${place}/`);

/** The innermost room that holds a path. */
function roomOf(path: string, rooms: readonly Room[]): Room | undefined {
  const holding = rooms.filter((room) => isUnder(path, room.path));
  return holding.sort((a, b) => b.path.length - a.path.length)[0];
}

function importedNames(clause: ts.ImportClause | undefined): string[] {
  const names = clause?.name === undefined ? [] : ['default'];
  const bindings = clause?.namedBindings;
  if (bindings === undefined) return names;
  if (ts.isNamespaceImport(bindings)) return [...names, '*'];
  return [...names, ...bindings.elements.map(({ name, propertyName }) => (propertyName ?? name).text)];
}

function textOf(node: ts.Node | undefined): string | null {
  return node !== undefined && ts.isStringLiteralLike(node) ? node.text : null;
}

function fromImport(node: ts.ImportDeclaration): Found {
  const clause = node.importClause;
  const bindings = clause?.namedBindings;
  const listed = bindings !== undefined && ts.isNamedImports(bindings) ? bindings.elements : [];
  const typesOnly =
    clause?.phaseModifier === ts.SyntaxKind.TypeKeyword ||
    (clause?.name === undefined && listed.length > 0 && listed.every(({ isTypeOnly }) => isTypeOnly));
  return { specifier: textOf(node.moduleSpecifier), typesOnly, names: importedNames(clause) };
}

function fromExport(node: ts.ExportDeclaration): Found {
  const listed =
    node.exportClause !== undefined && ts.isNamedExports(node.exportClause) ? node.exportClause.elements : [];
  const names =
    listed.length > 0 ? listed.map(({ name, propertyName }) => (propertyName ?? name).text) : ['*'];
  const typesOnly = node.isTypeOnly || (listed.length > 0 && listed.every(({ isTypeOnly }) => isTypeOnly));
  return { specifier: textOf(node.moduleSpecifier), typesOnly, names };
}

function found(node: ts.Node): Found | null {
  if (ts.isImportDeclaration(node)) return fromImport(node);
  if (ts.isExportDeclaration(node)) return node.moduleSpecifier === undefined ? null : fromExport(node);
  if (ts.isImportTypeNode(node)) {
    const argument = ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined;
    return { specifier: textOf(argument), typesOnly: true, names: ['*'] };
  }
  if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
    return { specifier: textOf(node.arguments[0]), typesOnly: false, names: ['*'] };
  }
  return null;
}

/** The script of a component, and what its markup imports on the way. */
function scriptOf(path: string, text: string): string {
  if (!path.endsWith('.svelte')) return text;
  const scripts = [...text.matchAll(/<script\b[^>]*>([\s\S]*?)<\/script>/g)].map((match) => match[1] ?? '');
  const markup = text.replace(/<script\b[^>]*>[\s\S]*?<\/script>/g, '');
  return [...scripts, ...(markup.match(/\bimport\([^)]*\)/g) ?? [])].join(';\n');
}

function resolved(from: string, specifier: string | null): Pick<Edge, 'to' | 'target'> {
  if (specifier === null) return { to: 'an import that is not a literal', target: 'unreadable' };
  const path = specifier.replace(/\?.*$/, '');
  if (path.startsWith('#lib/')) return { to: `lib/${path.slice('#lib/'.length)}`, target: 'file' };
  if (!path.startsWith('.')) return { to: path, target: 'package' };
  const folder = from.split('/').slice(0, -1);
  for (const part of path.split('/')) {
    if (part === '..') folder.pop();
    else if (part !== '.') folder.push(part);
  }
  return { to: folder.join('/'), target: 'file' };
}

/** Every import of one file: static, re-exported, dynamic, as a type, as a worker. */
export function readImports(path: string, text: string): Edge[] {
  const edges: Edge[] = [];
  const visit = (node: ts.Node): void => {
    const one = found(node);
    if (one !== null) {
      const { to, target } = resolved(path, one.specifier);
      // Kit writes these types beside each route; styles are not code.
      if (!/(^|\/)\$types(\.js)?$|\.css$/.test(to) || target === 'package') {
        edges.push({ from: path, to, target, typesOnly: one.typesOnly, names: one.names });
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(`${path}.ts`, scriptOf(path, text), ts.ScriptTarget.Latest, true));
  return edges;
}

/** Files outside every room, or in a drawer for things without a place. */
export function checkPlaces(files: readonly string[], rooms: readonly Room[]): string[] {
  return files.flatMap((path) => [
    ...(roomOf(path, rooms) === undefined ? [`${path}: is in no room`] : []),
    ...(/(^|\/)utils?(\/|\.)/.test(path) ? [`${path}: utils is no room`] : []),
    ...(path.endsWith('/types.ts') ? [`${path}: types live beside the code that makes them`] : [])
  ]);
}

function mayImport(edge: Edge, room: Room, rooms: readonly Room[]): boolean {
  const allowed = edge.typesOnly ? [...room.may, ...(room.types ?? [])] : room.may;
  return roomOf(edge.to, rooms) === room || allowed.some((place) => isUnder(edge.to, place));
}

/** Arrows between files that the table of rooms does not name. */
export function checkRoomArrows(edges: readonly Edge[], rooms: readonly Room[]): string[] {
  return edges
    .filter(({ target }) => target !== 'package')
    .filter((edge) => {
      const room = roomOf(edge.from, rooms);
      return edge.target === 'unreadable' || room === undefined || !mayImport(edge, room, rooms);
    })
    .map(({ from, to, typesOnly }) => `${from} -> ${to}${typesOnly ? ' (types)' : ''}`);
}

async function namesOf(parts: readonly string[]): Promise<Set<string>> {
  const modules: object[] = await Promise.all(
    parts.map((part): Promise<object> => import(/* @vite-ignore */ part))
  );
  return new Set(modules.flatMap((module) => Object.keys(module)));
}

/** Packages named where the rules do not let them be; node's own modules never are. */
export async function checkPackages(
  edges: readonly Edge[],
  rules: readonly PackageRule[]
): Promise<string[]> {
  const faults: string[] = [];
  for (const { from, to, names, typesOnly } of edges.filter(({ target }) => target === 'package')) {
    const rule = rules.find(
      ({ name, places }) => isUnder(to, name) && places.some((place) => isUnder(from, place))
    );
    if (rule === undefined) {
      faults.push(`${from} -> ${to}`);
    } else if (rule.parts !== undefined && !typesOnly) {
      const known = await namesOf(rule.parts);
      const strange = names.filter((name) => !known.has(name));
      if (names.length === 0 || strange.length > 0 || to !== rule.name)
        faults.push(`${from} -> ${to}: ${strange.join(', ')}`);
    }
  }
  return faults;
}

/** Cycles between files, each as the path round it; every cycle shares a file with one of those given. */
export function findCycles(edges: readonly Edge[]): string[] {
  const next = new Map<string, string[]>();
  for (const { from, to, target } of edges) {
    if (target === 'file') next.set(from, [...(next.get(from) ?? []), to]);
  }
  const done = new Set<string>();
  const cycles: string[] = [];
  const walk = (file: string, trail: readonly string[]): void => {
    const at = trail.indexOf(file);
    if (at >= 0) cycles.push([...trail.slice(at), file].join(' -> '));
    if (at >= 0 || done.has(file)) return;
    for (const to of next.get(file) ?? []) walk(to, [...trail, file]);
    done.add(file);
  };
  for (const file of next.keys()) walk(file, []);
  return cycles;
}
