// A Chromium of its own, with a profile on the disk, that can be ended from one moment to the next as a dead battery does.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { FLAGS, chromiumPath } from './page.mjs';

const WAIT_MS = 30_000;

/** Starts one on `profile`: `page`, `kill()` for SIGKILL, `close()` for an orderly end. */
export async function start(profile, more = []) {
  const port = path.join(profile, 'DevToolsActivePort');
  const before = existsSync(port) ? readFileSync(port, 'utf8') : '';
  const browser = spawn(chromiumPath(), ['--headless', ...FLAGS, `--user-data-dir=${profile}`, '--remote-debugging-port=0', ...more, 'about:blank'], {
    detached: true, // A group of its own: its helpers end with it.
    stdio: 'ignore',
  });
  const gone = new Promise((done) => browser.once('exit', done));
  const kill = async () => {
    try {
      process.kill(-browser.pid, 'SIGKILL');
    } catch {
      // It has ended by itself.
    }
    await gone;
  };
  for (const began = Date.now(); ; await new Promise((done) => setTimeout(done, 50))) {
    const now = existsSync(port) ? readFileSync(port, 'utf8') : '';
    if (now && now !== before && now.includes('\n')) break;
    if (Date.now() - began > WAIT_MS) {
      await kill();
      throw new Error('Chromium did not start');
    }
  }
  const [number] = readFileSync(port, 'utf8').split('\n');
  const driver = await chromium.connectOverCDP(`http://127.0.0.1:${number}`);
  const [context] = driver.contexts();
  const page = await context.newPage();
  const close = async () => {
    await driver.close().catch(() => {});
    await kill();
  };
  return { page, context, kill, close };
}
