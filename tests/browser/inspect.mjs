// A page looked at: axe-core without a violation, light and dark; nothing runs over the edge of a small phone; whatever
// is touched is large enough.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const axe = readFileSync(createRequire(new URL('../../build/browser/', import.meta.url)).resolve('axe-core'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const TOUCH_LEAST = 24, TOUCH_GOAL = 44; // CSS pixels; WCAG 2.2, criteria 2.5.8 and 2.5.5
const PHONE = { width: 320, height: 640 };

// Before `violations`, on every page anew.
export const bringAxe = page => page.evaluate(axe);

// In the dark only colours differ.
export async function violations(page, colorScheme) {
    const what = colorScheme === 'dark' ? { runOnly: ['color-contrast'] }
        : { runOnly: TAGS, rules: { 'target-size': { enabled: true } } };
    const found = await page.evaluate(what => window.axe.run(document, { ...what, resultTypes: ['violations'] }), what);
    return found.violations.map(v => `${v.id} (${v.help}): ${v.nodes.slice(0, 3).map(n => n.html).join(' | ')}`);
}

// What is touched, other than links within a sentence, and its smaller side.
function targets(page) {
    return page.$$eval('a[href], button, input:not([type=hidden]), select, textarea, summary', all =>
        all
            .filter(e => e.checkVisibility() && !(e.localName === 'a' && getComputedStyle(e).display === 'inline'))
            .map(e => (e.matches('.skip') ? null : e.matches('[type=radio], [type=checkbox]') ? (e.closest('label') ?? e) : e))
            .filter(e => e)
            .map(e => ({ html: e.outerHTML.slice(0, 120), kind: `${e.parentElement.localName}.${e.parentElement.className} > ${e.localName}.${e.className}`, least: Math.min(e.getBoundingClientRect().width, e.getBoundingClientRect().height) })));
}

// Those that are smaller than the goal, by kind.
async function onAPhone(t, page, path) {
    await page.setViewportSize(PHONE);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    t.check(wide <= PHONE.width, `${path}: ${wide} px wide on a phone of ${PHONE.width}`);
    const below = [];
    for (const target of await targets(page)) {
        t.check(target.least >= TOUCH_LEAST, `${path}: ${target.least} px to touch: ${target.html}`);
        if (target.least < TOUCH_GOAL) below.push(target.kind);
    }
    return below;
}

// Gives the kinds of targets on it that are smaller than 44 px.
export async function inspect(t, page, what) {
    await page.setViewportSize({ width: 1280, height: 800 });
    await bringAxe(page);
    const wrong = [];
    for (const colorScheme of ['light', 'dark']) {
        await page.emulateMedia({ colorScheme });
        wrong.push(...(await violations(page, colorScheme)).map(v => `${what}, ${colorScheme}: ${v}`));
    }
    t.check(wrong.length === 0, wrong.join('\n'));
    return onAPhone(t, page, what);
}
