// Every page is looked at, and what a form says when it is refused.
import { bringAxe, inspect, violations } from './inspect.mjs';
import { fillIntake, go, photograph, takeIn, vehicle } from './main_job.mjs';
import { everyPage } from './pages.mjs';

async function onEveryPage(t) {
    const { url } = await t.serve();
    const context = await t.context({ reducedMotion: 'reduce' });
    const page = await context.newPage();
    let count = 0;
    const small = new Map();
    const look = async what => {
        for (const kind of await inspect(t, page, what)) small.set(kind, (small.get(kind) ?? 0) + 1);
        count++;
    };
    await page.goto(url);
    await look('the empty yard');
    await page.goto(`${url}/intake`);
    await fillIntake(page, { ...vehicle, year: 'long ago', hours: '-1' });
    await page.locator('main button.main').click();
    await page.locator('[aria-invalid]').first().waitFor();
    await look('a refused intake');
    await photograph(page, url, await takeIn(page, url), 'as it was found');
    const pages = await everyPage(page, url);
    await page.goto(`${url}/intake`);
    await fillIntake(page, { ...vehicle, name: 'Heron', owned: 'no' });
    await page.locator('main button.main').click();
    await page.waitForURL(/\/vehicle\/[0-9a-f]+\//);
    const candidate = new URL(page.url()).pathname.replace(/[a-z]+$/, '');
    pages.push({ path: `${candidate}view`, status: 200 }, { path: `${candidate}advert`, status: 200 });
    for (const { path, status } of pages) {
        const response = await go(page, url + path);
        t.check(response.status() === status, `${path}: ${response.status()}, not ${status}`);
        if (response.headers()['content-type'].startsWith('text/html')) await look(path); // else one line of plain text
    }
    t.notes.push(`axe-core: 0 violations on ${count} pages, light and dark`);
    for (const [kind, times] of small) t.notes.push(`smaller than 44 px to touch: ${kind}, ${times} times`);
}

// What is looked for is found where it is: else nothing found would say nothing.
async function control(t) {
    const context = await t.context();
    const page = await context.newPage();
    await page.setContent('<p style="color: #aaa; background: #fff">faint</p><img src="x"><input>' +
        '<div><a href="/a" style="font-size: 4px">a</a><a href="/b" style="font-size: 4px">b</a></div>');
    await bringAxe(page);
    const found = (await violations(page, 'light')).concat(await violations(page, 'dark'));
    for (const rule of ['html-has-lang', 'document-title', 'image-alt', 'label', 'color-contrast', 'target-size'])
        t.check(found.some(v => v.startsWith(`${rule} `)), `axe-core does not find ${rule}`);
}

export const tests = [{ name: 'every page', run: onEveryPage }, { name: 'a bad page', run: control }];
