// A dead battery and a full disk. `KILLS=50` ends the browser 50 times.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, test } from 'node:test';
import { origin } from './lib/page.mjs';
import { start } from './lib/profile.mjs';
import { houses, ready, sketch } from './lib/walk.mjs';

const KILLS = Number(process.env.KILLS ?? 10);
/** What is left on the full disk: room for a few steps more. */
const LEFT_BYTES = 200_000;
/** By how much less with each step. */
const STEP_BYTES = 20_000;
const made = [];
const folder = (name) => {
  const made_ = mkdtempSync(path.join(tmpdir(), `joistwise-${name}-`));
  made.push(made_);
  return made_;
};
after(() => made.forEach((one) => rmSync(one, { recursive: true, force: true })));

/** The house on the sheet, whether it opened by itself or has to be asked for. */
async function back(page) {
  await ready(page);
  const offered = page.locator('#unopened [data-open]');
  if (await offered.isVisible()) await offered.click();
  await page.waitForFunction(() => /^Step|^New house$/.test(document.querySelector('#house-name').value) && !document.querySelector('#undo').disabled, null, { timeout: 60_000 });
  return Number((await page.inputValue('#house-name')).replace(/\D/g, '') || 0);
}

test(`${KILLS} times the browser is ended at a random moment: at most the last action is lost`, { timeout: 60_000 + KILLS * 20_000 }, async () => {
  const profile = folder('kill');
  const site = await origin();
  let browser = await start(profile);
  await browser.page.goto(site);
  await sketch(browser.page);
  await browser.page.waitForFunction(() => document.querySelector('#kept').dataset.kept === 'yes');
  let done = 0;
  let lost = 0;
  let worst = 0;
  for (let round = 0; round < KILLS; round += 1) {
    const { page, kill } = browser;
    // What is done is noted here, outside of the browser, as soon as it is done there.
    let going = true;
    const draw = (async () => {
      while (going) {
        const next = done + 1;
        await page.evaluate((next) => window.sheet.command({ set_house: { key: 'name', value: `Step ${next}` } }), next);
        done = next;
        // A quick hand does two to three things a second.
        await page.waitForTimeout(300 + Math.random() * 300);
      }
    })().catch(() => {});
    await new Promise((wait) => setTimeout(wait, 500 + Math.random() * 2500));
    await kill();
    going = false;
    await draw;
    browser = await start(profile);
    await browser.page.goto(site);
    const found = await back(browser.page);
    // One more than was noted may have been done in the moment of the end.
    worst = Math.max(worst, done - found);
    lost += done > found;
    assert.ok(found >= done - 1, `round ${round}: ${done} done, ${found} found`);
    assert.equal((await houses(browser.page)).length, 1);
    done = found;
  }
  await browser.close();
  console.log(`${KILLS} ends after ${done} actions: ${lost} lost the last action, none more`);
  assert.ok(worst <= 1);
});

test('on a full disk nothing is called kept that is not there after a restart', { timeout: 180_000 }, async (context) => {
  const disk = folder('disk');
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=48m', 'tmpfs', disk], { stdio: 'ignore' });
  } catch {
    return context.skip('no small disk can be mounted here: it takes the right to mount');
  }
  try {
    const site = await origin();
    let browser = await start(path.join(disk, 'profile'), ['--disk-cache-size=1']);
    await browser.page.goto(site);
    await sketch(browser.page);
    await browser.page.waitForFunction(() => document.querySelector('#kept').dataset.kept === 'yes');
    // The rest of the disk is filled by something else, and what the browser gives up as well.
    const left = () => {
      const { bavail, bsize } = statfsSync(disk);
      return bavail * bsize;
    };
    let part = 0;
    const fill = (leave) => {
      for (; left() > leave + 4096; part += 1) {
        const size = Math.max(4096, Math.floor((left() - leave) / 2 / 4096) * 4096);
        try {
          writeFileSync(path.join(disk, `filler-${part}`), Buffer.alloc(size, 1));
        } catch {
          return;
        }
      }
    };
    // Names of a few kB each: at some of them the disk refuses.
    let kept = 0;
    let refused = 0;
    for (let step = 1; step <= 60 && refused === 0; step += 1) {
      fill(Math.max(0, LEFT_BYTES - step * STEP_BYTES));
      await browser.page.evaluate((step) => {
        window.sheet.command({ set_house: { key: 'note', value: String.fromCharCode(65 + (step % 26)).repeat(1900) } });
        window.sheet.command({ set_house: { key: 'name', value: `Step ${step}` } });
      }, step);
      await browser.page.waitForTimeout(400);
      const word = await browser.page.evaluate(() => document.querySelector('#kept').dataset.kept);
      if (word === 'yes') kept = step;
      if (word === 'no') refused = step;
    }
    const alert = await browser.page.locator('#unkept').textContent();
    console.log(`full disk: kept up to step ${kept}, refused at ${refused || 'none'}; ${left()} bytes left`);
    if (refused) assert.match(alert, /Not kept/);
    await browser.kill();
    // With room again, what was said to be kept is there.
    execFileSync('sh', ['-c', `rm -f "${disk}"/filler-*`]);
    browser = await start(path.join(disk, 'profile'), ['--disk-cache-size=1']);
    await browser.page.goto(site);
    const found = await back(browser.page);
    await browser.close();
    assert.ok(found >= kept, `kept was said of step ${kept}, step ${found} is there`);
  } finally {
    execFileSync('umount', ['-l', disk], { stdio: 'ignore' });
  }
  return undefined;
});
