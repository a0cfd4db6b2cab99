// The built page over HTTP on loopback, the way any plain web host serves it: with the headers of `web/headers.txt`, no
// redirects, a file or 404. `.mjs` and unknown endings are not part of the page.
import { createHash } from 'node:crypto';
import { createServer } from 'node:http';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';

const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
};

const POLICY = readFileSync(new URL('../../../web/headers.txt', import.meta.url), 'utf8');
const HEADERS = Object.fromEntries(POLICY.trim().split('\n').map((line) => line.split(/: (.*)/)));

/** What is shipped gives no script a hold on the sheet. The tests get one: this line behind the page's first module. */
const HANDLE = "\nObject.defineProperty(window, 'sheet', { get: () => page.sheet });\n";
const isPage = (file) => file.endsWith('/page.js');
const withHandle = (body) => Buffer.concat([body, Buffer.from(HANDLE)]);

/** The list of files as it is once the handle is in. */
async function listWithHandle(folder, body) {
  const list = JSON.parse(body);
  for (const entry of list.files.filter(({ path }) => isPage(path))) {
    const served = withHandle(await readFile(path.join(folder, entry.path)));
    Object.assign(entry, { sha256: createHash('sha256').update(served).digest('hex'), bytes: served.length });
  }
  return Buffer.from(JSON.stringify(list));
}

/** Writes the list of a folder's files anew, as the build does. */
export function relist(folder, version) {
  const names = readdirSync(path.join(folder, version), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath ?? entry.path, entry.name)));
  const files = ['index.html', ...names].map((name) => {
    const body = readFileSync(path.join(folder, name));
    return { path: name === 'index.html' ? './' : name, sha256: createHash('sha256').update(body).digest('hex'), bytes: body.length };
  });
  writeFileSync(path.join(folder, 'files.json'), JSON.stringify({ version, files }));
}

/**
 * Serves `folder` until `close()`. `origin` has no slash at its end. With `handle` the page is served as the tests need it,
 * without it byte for byte. `change(name, body)` may give another body, or null for a file that is missing; `folder` of what
 * comes back can be set to another version; `asked` is what was asked for.
 */
export async function serve(folder, { handle = true, change = null } = {}) {
  const site = { folder, change, asked: [] };
  const server = createServer(async (request, response) => {
    const file = fileFor(site.folder, request.url);
    site.asked.push(request.url);
    let body = file && (await readFile(file).catch(() => null));
    if (body && handle && isPage(file)) body = withHandle(body);
    if (body && handle && file.endsWith('/files.json')) body = await listWithHandle(site.folder, body);
    if (body && site.change) body = await site.change(path.relative(site.folder, file), body);
    if (!body) {
      response.writeHead(404, { ...HEADERS, 'content-type': 'text/plain; charset=utf-8' }).end('no such file\n');
      return;
    }
    const type = TYPES[path.extname(file)] ?? 'application/octet-stream';
    response.writeHead(200, { ...HEADERS, 'content-type': type, 'content-length': body.length });
    response.end(request.method === 'HEAD' ? undefined : body);
  });
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', resolve);
  });
  const close = () => {
    server.closeAllConnections();
    return new Promise((resolve) => server.close(resolve));
  };
  return Object.assign(site, { origin: `http://127.0.0.1:${server.address().port}`, close });
}

/** The file behind an address, or null for one that points outside the folder. */
function fileFor(folder, address) {
  const wanted = decodeURIComponent(new URL(address, 'http://127.0.0.1').pathname);
  const file = path.join(folder, wanted.endsWith('/') ? `${wanted}index.html` : wanted);
  return file.startsWith(folder + path.sep) ? file : null;
}
