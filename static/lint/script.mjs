/** What a module needs: its syntax, and every name of the platform that it uses. */
import { parse as parseSyntax } from 'acorn';
import ts from 'typescript';
import { cssName, global, member, memberByName, option } from './members.mjs';
import { UNKNOWN, feature } from './data.mjs';
import { declaring, holder, lineage, load } from './program.mjs';
import { checkLiterals, keyframe, styleValue } from './literals.mjs';

/** The newest ECMAScript whose syntax Chromium 103 has in full; the test of the syntax holds it against the data. */
const ECMASCRIPT = 2022;

/**
 * @typedef {{key: string, since: number}} Feature
 * @typedef {(found: Feature, line: number, text: string) => void} Report
 */

/**
 * @param {Map<string, string>} modules text by absolute path
 * @param {(name: string) => Report} reportFor makes the report of a module
 * @param {(name: string) => void} [unlisted] called with names of the platform that the data has not
 */
export function checkScripts(modules, reportFor, unlisted = () => {}) {
  const program = load(modules);
  for (const [name, text] of modules) {
    const report = reportFor(name);
    checkSyntax(text, report);
    new Module(program, program.source(name), report, unlisted).check();
  }
}

/** @param {string} text @param {Report} report */
function checkSyntax(text, report) {
  try {
    parseSyntax(text, { ecmaVersion: ECMASCRIPT, sourceType: 'module' });
  } catch (error) {
    const { loc, message } = /** @type {any} */ (error);
    report({ key: `syntax after ECMAScript ${ECMASCRIPT}, or none`, since: UNKNOWN }, loc?.line ?? 1, message);
  }
}

class Module {
  /** @param {ReturnType<typeof load>} program @param {ts.SourceFile} source @param {Report} report @param {(name: string) => void} unlisted */
  constructor(program, source, report, unlisted) {
    this.program = program;
    this.source = source;
    this.unlisted = unlisted;
    /** @param {Feature | null} found @param {ts.Node} node */
    this.use = (found, node) => {
      const line = source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
      if (found) report(found, line, node.getText(source).slice(0, 60));
    };
  }

  check() {
    const visit = (/** @type {ts.Node} */ node) => {
      this.#node(node);
      ts.forEachChild(node, visit); // without what comments say
    };
    visit(this.source);
  }

  /** @param {ts.Node} node */
  #node(node) {
    if (ts.isPropertyAccessExpression(node)) return this.#member(node.expression, node.name.text, node);
    if (ts.isElementAccessExpression(node)) {
      const index = this.program.checker.getTypeAtLocation(node.argumentExpression);
      return index.isStringLiteral() ? this.#member(node.expression, index.value, node) : undefined;
    }
    if (ts.isBindingElement(node) && ts.isObjectBindingPattern(node.parent)) {
      const name = node.propertyName ?? node.name;
      return ts.isIdentifier(name) ? this.#member(node.parent, name.text, node) : undefined;
    }
    if (ts.isObjectLiteralExpression(node)) return this.#object(node);
    if (ts.isNewExpression(node)) return this.#expression(node);
    if (ts.isCallExpression(node)) return checkLiterals(node, this.program, this.use);
    if (ts.isBinaryExpression(node)) return styleValue(node, this.program, this.use);
    if (ts.isIdentifier(node)) return this.#name(node);
  }

  /** The syntax of a regular expression that is made from texts. @param {ts.NewExpression} node */
  #expression({ expression, arguments: [pattern, flags] = /** @type {any} */ ([]) }) {
    if (expression.getText() !== 'RegExp' || !pattern || !ts.isStringLiteralLike(pattern)) return;
    const source = pattern.text.replace(/\\.|\//g, (m) => (m === '/' ? '\\/' : m)) || '(?:)';
    checkSyntax(`/${source}/${flags && ts.isStringLiteralLike(flags) ? flags.text : ''}`, (found) => this.use(found, pattern));
  }

  /** @param {ts.Identifier} node */
  #name(node) {
    const { parent } = node;
    if (ts.isPropertyAccessExpression(parent) && parent.name === node) return;
    if (ts.isPropertyAssignment(parent) && parent.name === node) return;
    if (ts.isBindingElement(parent) && parent.propertyName === node) return;
    const { checker, isPlatform } = this.program;
    const symbol = ts.isShorthandPropertyAssignment(parent)
      ? checker.getShorthandAssignmentValueSymbol(parent) : checker.getSymbolAtLocation(node);
    if (symbol && !isPlatform(symbol)) return;
    const found = global(node.text);
    if (!found && symbol) this.unlisted(node.text);
    this.use(found, node);
  }

  /** @param {ts.Node} object @param {string} name @param {ts.Node} node */
  #member(object, name, node) {
    this.use(this.find(object, name), node);
  }

  /**
   * What a member of an object needs. Of an object of unknown type, or a member that
   * its type does not know, the name alone tells.
   *
   * @param {ts.Node} object
   * @param {string} name
   * @returns {Feature | null}
   */
  find(object, name) {
    const { checker, isPlatform } = this.program;
    const type = checker.getApparentType(checker.getNonNullableType(checker.getTypeAtLocation(object)));
    const symbol = type.getProperty(name) ?? null;
    if (!symbol) return type.getStringIndexType() ? null : this.#unknown(type, name);
    if (!isPlatform(symbol)) return null;
    const holders = /** @type {ts.Declaration[]} */ (symbol.declarations).map(holder);
    if (holders.some((h) => h === null)) return global(name);
    const found = holders.flatMap((h) => member(/** @type {any} */ (h).name, name, /** @type {any} */ (h).fixed) ?? []);
    const families = [type, ...declaring(checker, symbol)].flatMap((t) => lineage(checker, t));
    const inherited = families.map((t) => member(t, name, false)).find(Boolean) ?? null;
    const styled = holders.some((h) => /^CSSStyle/.test(h?.name ?? '')) ? feature('css', 'properties', cssName(name)) : null;
    const needed = found.sort((a, b) => b.since - a.since)[0] ?? inherited ?? styled ?? null;
    if (!needed) this.unlisted(`${holders[0]?.name}.${name}`);
    return needed;
  }

  /** @param {ts.Type} type @param {string} name */
  #unknown(type, name) {
    const found = memberByName(name);
    const anything = (type.flags & (ts.TypeFlags.Any | ts.TypeFlags.Unknown)) !== 0;
    const own = anything ? null : lineage(this.program.checker, type).map((t) => member(t, name, false)).find(Boolean);
    if (own) return own; // newer than TypeScript's own lists
    return anything && found?.since === Infinity ? null : named(found); // what no Chromium has is then our own word
  }

  /** Options by the function that takes them, and keyframes. @param {ts.ObjectLiteralExpression} node */
  #object(node) {
    const type = this.program.checker.getContextualType(node);
    if (type && lineage(this.program.checker, type).some((t) => /^(Keyframe|PropertyIndexedKeyframes)$/.test(t))) {
      return keyframe(node, this.use);
    }
    const call = node.parent;
    if (!(ts.isCallExpression(call) || ts.isNewExpression(call))) return;
    const callee = this.#callee(call);
    for (const property of callee ? node.properties : []) {
      if (property.name && ts.isIdentifier(property.name)) this.use(option(callee, property.name.text), property);
    }
  }

  /** The key of what is called. @param {ts.CallExpression | ts.NewExpression} call */
  #callee({ expression: e, kind }) {
    const name = ts.isPropertyAccessExpression(e) ? this.find(e.expression, e.name.text) : ts.isIdentifier(e) ? global(e.text) : null;
    if (!name) return null;
    return kind === ts.SyntaxKind.NewExpression ? `${name.key}.${name.key.split('.').at(-1)}` : name.key;
  }
}

/** @param {Feature | null} found */
const named = (found) => found && { ...found, key: `${found.key} (by its name)` };
