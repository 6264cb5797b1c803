/**
 * Checks the files named as arguments, relative to the folder above this one.
 * Prints what is too new for the floor and is not allowed; exits with 1 then.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { ALLOWED } from './allow.mjs';
import { check } from './check.mjs';
import { FLOOR } from './data.mjs';

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const names = process.argv.slice(2);
if (names.length === 0) throw new Error('name the files to check');

const { findings, uses, unlisted } = check(new Map(names.map((n) => [path.join(root, n), readFileSync(path.join(root, n), 'utf8')])));
const needed = new Set();
let refused = 0;
for (const { file, line, key, since, text } of findings) {
  const name = path.relative(root, file).split(path.sep).join('/');
  const entry = ALLOWED.find((a) => a.file === name && a.key === key);
  if (entry) {
    needed.add(entry);
    continue;
  }
  refused++;
  const release = Number.isNaN(since) ? 'not in the data' : since === Infinity ? 'not in Chromium' : `Chromium ${since}`;
  console.log(`${name}:${line}: ${text}: ${key}: ${release}, wanted at most ${FLOOR}`);
}
for (const entry of ALLOWED) {
  if (needed.has(entry)) continue;
  refused++;
  console.log(`allow.mjs: nothing needs ${entry.key} in ${entry.file} any more`);
}
for (const name of unlisted) {
  refused++;
  console.log(`${name}: a name of the platform that the data has not; say in members.mjs how the data calls it`);
}
console.log(`${names.length} files, ${uses} uses looked up, ${needed.size} allowed, ${refused} refused`);
process.exitCode = refused > 0 ? 1 : 0;
