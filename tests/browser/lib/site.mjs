// The built page over HTTP on loopback, the way any plain web host serves it. No cache headers, no redirects: a file or
// 404. `.mjs` and unknown endings are not part of the page.
import { createServer } from 'node:http';
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

/** Serves `folder` until `close()`. `origin` has no slash at its end. */
export async function serve(folder) {
  const server = createServer(async (request, response) => {
    const file = fileFor(folder, request.url);
    const body = file && (await readFile(file).catch(() => null));
    if (!body) {
      response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8' }).end('no such file\n');
      return;
    }
    const type = TYPES[path.extname(file)] ?? 'application/octet-stream';
    response.writeHead(200, { 'content-type': type, 'content-length': body.length });
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
  return { origin: `http://127.0.0.1:${server.address().port}`, close };
}

/** The file behind an address, or null for one that points outside the folder. */
function fileFor(folder, address) {
  const wanted = decodeURIComponent(new URL(address, 'http://127.0.0.1').pathname);
  const file = path.join(folder, wanted.endsWith('/') ? `${wanted}index.html` : wanted);
  return file.startsWith(folder + path.sep) ? file : null;
}
