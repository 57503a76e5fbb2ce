// The main job, from an empty garage to a printed plan: at three widths, each page light and dark, and with script off.
import { statSync } from 'node:fs';
import { bringAxe, violations } from './inspect.mjs';
import { fillIntake, settled, vehicle } from './main_job.mjs';

async function fitsAcross(t, page, what) {
    const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
    t.check(wide <= room, `${what}: ${wide} px wide in a window of ${room}`);
}

// The narrowest is looked at by axe-core here too, so that the quick tests have it; test_every_page.mjs looks at every page.
async function accessible(t, page, what, colorScheme) {
    await bringAxe(page);
    const wrong = await violations(page, colorScheme);
    t.check(wrong.length === 0, `${what}: ${wrong.join('\n')}`);
}

async function step(t, page, name, screen, title) {
    await settled(page);
    t.check((await page.locator('h1').innerText()).includes(title), `${name}: the heading does not say ${title}`);
    for (const colorScheme of screen ? ['dark', 'light'] : ['light']) {
        await page.emulateMedia({ colorScheme });
        await fitsAcross(t, page, `${name}, ${colorScheme}`);
        if (screen === '320') await accessible(t, page, `${name}, ${colorScheme}`, colorScheme);
        if (screen) await page.screenshot({ path: t.screen(`${screen}-${name}-${colorScheme}`), fullPage: true });
    }
}

async function mainJob(t, options, screen) {
    const { url } = await t.serve();
    const context = await t.context(options);
    const page = await context.newPage();
    await page.goto(url);
    t.check((await page.locator('main').innerText()).includes('No vehicle'), 'the garage is not empty');
    await page.locator('main .onward a').click();
    await step(t, page, 'intake', screen, 'Take a vehicle in');
    await fillIntake(page, vehicle);
    await page.locator('main button.main').click();
    await page.waitForURL(/\/plan$/);
    await step(t, page, 'plan', screen, vehicle.name);

    await page.getByRole('link', { name: 'Survey', exact: true }).click();
    await step(t, page, 'survey', screen, vehicle.name);
    await page.locator('.stops a[href$="/survey/outside"]').first().click();
    await page.waitForURL(/\/survey\/[a-z-]+$/);
    const stop = page.url();
    await step(t, page, 'stop', screen, 'outside');
    await page.locator('.lap fieldset').first().locator('label', { hasText: 'worn' }).first().click();
    await page.locator('.bar button.main').click();
    await page.waitForURL(address => address.href !== stop);
    await page.goto(stop);
    t.check(/^[1-9]/.test(await page.locator('main > p').first().innerText()), 'what was told at the stop is not seen there');

    await page.getByRole('link', { name: 'Choose', exact: true }).click();
    await step(t, page, 'choose', screen, vehicle.name);
    for (const direction of ['preserve', 'drive', 'restore', 'modify', 'sell'])
        t.check((await page.locator('main').innerText()).includes(direction), `choose does not weigh ${direction}`);

    await page.getByRole('link', { name: 'Plan', exact: true }).click();
    await step(t, page, 'planned', null, vehicle.name);
    await printed(t, page, screen);

    await page.getByRole('link', { name: 'Yard', exact: true }).click();
    await step(t, page, 'yard', screen, 'The yard');
    t.check((await page.locator('main').innerText()).includes(vehicle.name), 'the yard does not show it');
}

// On paper: the plan is whole, what is only to be pressed is not there.
async function printed(t, page, screen) {
    await page.emulateMedia({ media: 'print' });
    t.check(await page.locator('h1').isVisible(), 'the printed plan has no heading');
    t.check(await page.getByText('Order by', { exact: true }).first().isVisible(), 'the printed plan does not say what to order');
    t.check(!(await page.locator('header').first().isVisible()), 'the printed plan has its navigation');
    const path = t.screen(`${screen ?? 'script-off'}-printed`).replace('.png', '.pdf');
    const pdf = await page.pdf({ path, preferCSSPageSize: true, format: 'A4' });
    t.check(pdf.subarray(0, 5).toString() === '%PDF-' && statSync(path).size > 20000, 'the plan is not printed');
    await page.emulateMedia({ media: null });
}

export const tests = [320, 768, 1440]
    .map(width => ({
        name: `main job at ${width} px`,
        run: t => mainJob(t, { viewport: { width, height: 800 }, hasTouch: width === 320 }, `${width}`),
    }))
    .concat({
        name: 'main job with script off',
        run: t => mainJob(t, { viewport: { width: 768, height: 800 }, javaScriptEnabled: false, reducedMotion: 'reduce' }, null),
    });
