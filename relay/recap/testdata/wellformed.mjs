// Reads pages with parse5, by the HTML standard, and prints every parse error, and what in them
// would be fetched or run: node wellformed.mjs FILE...
import { readFileSync } from 'node:fs';
import { parse } from '../../../static/lint/node_modules/parse5/dist/index.js';

const found = [];
for (const file of process.argv.slice(2)) {
  const say = (text) => found.push(`${file}: ${text}`);
  const text = readFileSync(file, 'utf8');
  const tree = parse(text, { onParseError: (e) => say(`${e.code} in line ${e.startLine}, column ${e.startCol}`) });
  const ids = new Set();
  const used = [];
  const walk = (node) => {
    for (const { name, value } of node.attrs ?? []) {
      if (name === 'id' && ids.has(value)) say(`two elements with the id ${value}`);
      if (name === 'id') ids.add(value);
      if (name.startsWith('on')) say(`attribute ${name}`);
      if (name === 'src' || name === 'srcset' || name === 'action') say(`attribute ${name}`);
      if (name === 'href' && !/^#|^([a-z0-9-]+\.(html|pgn)|cues\/[a-z0-9.-]+\.(vtt|csv|edl))$/.test(value)) say(`href ${value}`);
      if (name === 'href' && value.startsWith('#')) used.push(value.slice(1));
      for (const [, id] of String(value).matchAll(/url\(#([^)]*)\)/g)) used.push(id);
    }
    if (['script', 'link', 'iframe', 'img', 'object', 'embed', 'base', 'form'].includes(node.nodeName)) say(`element ${node.nodeName}`);
    for (const child of node.childNodes ?? []) walk(child);
  };
  walk(tree);
  for (const id of used) if (!ids.has(id)) say(`nothing has the id ${id}`);
  for (const [, url] of text.matchAll(/url\(([^#d][^)]{0,40})|@import/g)) say(`style fetches ${url}`);
}
console.log(JSON.stringify(found));
