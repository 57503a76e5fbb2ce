// first_page.mjs URL PATH...   how soon a page can be used in Chromium, its cache empty: milliseconds from the asking to the
// first paint or to the document's being ready, whichever is later; the middle of eleven.
import { createRequire } from 'node:module';

const { chromium } = createRequire(new URL('../build/browser/', import.meta.url))('playwright-core');
const TIMES = 11;
const [url, ...paths] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium' });
for (const path of paths) {
    const usable = [];
    for (let i = 0; i < TIMES; i++) {
        const context = await browser.newContext();
        const page = await context.newPage();
        await page.goto(url + path);
        usable.push(await page.evaluate(async () => {
            const paint = await new Promise(tell => new PerformanceObserver(list =>
                list.getEntriesByName('first-contentful-paint').forEach(e => tell(e.startTime)))
                .observe({ type: 'paint', buffered: true }));
            return Math.max(paint, performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd);
        }));
        await context.close();
    }
    usable.sort((a, b) => a - b);
    console.log(`| ${path.replace(/[0-9a-f]{32}/, 'ID')} | ${usable[TIMES >> 1].toFixed(0)} ms | ${usable.at(-1).toFixed(0)} ms |`);
}
await browser.close();
