import { readFileSync } from 'node:fs';
import { parseSync, Visitor } from 'oxc-parser';

/** One place where a file names another module. */
export interface ModuleImport {
  readonly specifier: string;
  /** True where nothing of it is left once types are stripped. */
  readonly typeOnly: boolean;
  /** From 1. */
  readonly line: number;
}

const lineAt = (text: string, offset: number): number => text.slice(0, offset).split('\n').length;

const isString = (value: unknown): value is string => typeof value === 'string';

/**
 * Every module that a TypeScript file names: imports, re-exports, `import()` with a plain string, `import('x').T` in a
 * type, and `/// <reference types="x" />`.
 *
 * Throws where the file does not parse.
 */
export const readImports = (path: string): readonly ModuleImport[] => {
  const text = readFileSync(path, 'utf8');
  const { module, comments, errors, program } = parseSync(path, text);
  const error = errors[0];
  if (error) throw new Error(`${path}: ${error.message}`);
  const found: ModuleImport[] = [];
  const add = (specifier: string, typeOnly: boolean, start: number): void => {
    found.push({ specifier, typeOnly, line: lineAt(text, start) });
  };
  // `import { type A }` still loads the module under verbatimModuleSyntax; only the statement's own `type` removes it.
  const isTypeStatement = (start: number): boolean => /^(?:import|export)\s+type\b/.test(text.slice(start));
  for (const statement of module.staticImports) {
    add(statement.moduleRequest.value, isTypeStatement(statement.start), statement.start);
  }
  for (const statement of module.staticExports) {
    const request = statement.entries.find((entry) => entry.moduleRequest)?.moduleRequest;
    if (request) add(request.value, isTypeStatement(statement.start), statement.start);
  }
  for (const comment of comments) {
    const reference = /^\/\s*<reference\s+(?:types|path)="([^"]+)"/.exec(comment.value)?.[1];
    if (reference !== undefined) add(reference, true, comment.start);
  }
  new Visitor({
    ImportExpression(node) {
      if (node.source.type === 'Literal' && isString(node.source.value)) {
        add(node.source.value, false, node.start);
      }
    },
    TSImportType(node) {
      add(node.source.value, true, node.start);
    },
  }).visit(program);
  return found.sort((a, b) => a.line - b.line);
};
