// Accessibility rules over the page as it stands: names, roles, contrast, order.
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

const SOURCE = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * The broken rules, one line each: rule, what it says, the elements. Empty when all is well. `context` limits the search
 * to a selector.
 */
export async function brokenRules(page, context = 'html') {
  await page.evaluate(await SOURCE);
  const violations = await page.evaluate(async (selector) => {
    const { violations } = await globalThis.axe.run(selector, { resultTypes: ['violations'] });
    return violations.map(({ id, help, nodes }) => ({ id, help, elements: nodes.map((node) => node.target.join(' ')) }));
  }, context);
  return violations.map(({ id, help, elements }) => `${id}: ${help}: ${elements.join(', ')}`);
}
