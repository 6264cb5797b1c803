/** The modules as TypeScript sees them: which name is whose. */
import path from 'node:path';
import ts from 'typescript';

/** As in static/jsconfig.json, but with all that TypeScript knows of, so that what is too new has a type as well. */
const OPTIONS = {
  allowJs: true, checkJs: true, strict: true, noEmit: true, types: [],
  target: ts.ScriptTarget.ESNext, module: ts.ModuleKind.ESNext, moduleResolution: ts.ModuleResolutionKind.Bundler,
  lib: ['lib.esnext.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
};

/**
 * @param {Map<string, string>} modules text by absolute path
 * @returns {{checker: ts.TypeChecker, source: (name: string) => ts.SourceFile, isPlatform: (s: ts.Symbol) => boolean}}
 */
export function load(modules) {
  const host = ts.createCompilerHost(OPTIONS, true);
  const { readFile, fileExists } = host;
  host.readFile = (name) => modules.get(path.resolve(name)) ?? readFile(name);
  host.fileExists = (name) => modules.has(path.resolve(name)) || fileExists(name);
  const program = ts.createProgram([...modules.keys()], OPTIONS, host);
  return {
    checker: program.getTypeChecker(),
    source: (name) => /** @type {ts.SourceFile} */ (program.getSourceFile(name)),
    isPlatform: (symbol) => !!symbol.declarations?.length
      && symbol.declarations.every((d) => program.isSourceFileDefaultLibrary(d.getSourceFile())),
  };
}

/** A type, those it is a union of, and all that these inherit from. @param {ts.TypeChecker} checker @param {ts.Type} type @returns {string[]} names */
export function lineage(checker, type) {
  const names = new Set();
  const visit = (/** @type {ts.Type} */ t) => {
    if (t.isUnionOrIntersection()) return t.types.forEach(visit);
    const apparent = checker.getApparentType(t);
    const name = apparent.symbol?.name;
    if (name && !names.has(name)) {
      names.add(name);
      apparent.getBaseTypes?.()?.forEach(visit);
      const target = /** @type {any} */ (apparent).target;
      if (target && target !== apparent) target.getBaseTypes?.()?.forEach(visit);
    }
  };
  visit(checker.getNonNullableType(type));
  return [...names];
}

/** The interfaces that declare a member, where the type that it was found on is made from them. @param {ts.TypeChecker} checker @param {ts.Symbol} symbol */
export function declaring(checker, symbol) {
  const parents = (symbol.declarations ?? []).map((d) => d.parent).filter(ts.isInterfaceDeclaration);
  return parents.flatMap((p) => checker.getSymbolAtLocation(p.name) ?? []).map((s) => checker.getDeclaredTypeOfSymbol(s));
}

/** The interface, class or object in which a member is declared. @param {ts.Declaration} declaration */
export function holder(declaration) {
  const { parent } = declaration;
  if (ts.isInterfaceDeclaration(parent) || ts.isClassDeclaration(parent)) return { name: parent.name?.text ?? '', fixed: false };
  if (ts.isTypeLiteralNode(parent) && ts.isVariableDeclaration(parent.parent)) return { name: parent.parent.name.getText(), fixed: true };
  if (ts.isModuleBlock(parent)) return { name: parent.parent.name.text, fixed: true };
  const variable = ts.isVariableDeclaration(declaration) ? declaration.parent?.parent?.parent : null;
  if (variable && ts.isModuleBlock(variable)) return { name: variable.parent.name.text, fixed: true };
  return null;
}
