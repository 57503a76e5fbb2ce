// The main job with the keyboard alone: Tab, Enter, arrows and typing. Whatever has the focus shows it and is in sight.
import { settled, vehicle } from './main_job.mjs';

const STEPS_MOST = 400; // of Tab, to reach anything on a page

// How the element in focus looks, or null if none is.
function focus(page) {
    return page.evaluate(() => {
        const e = document.activeElement;
        if (!e || e === document.body) return null;
        const box = e.getBoundingClientRect();
        const shows = [e, e.closest('label')].some(x => x && getComputedStyle(x).outlineStyle !== 'none' &&
            parseFloat(getComputedStyle(x).outlineWidth) >= 2);
        const at = document.elementFromPoint(box.x + Math.min(box.width, innerWidth) / 2, box.y + box.height / 2);
        return {
            html: e.outerHTML.slice(0, 120), name: e.getAttribute('name'), text: e.textContent.trim(), element: e.localName,
            shows, inSight: !!at && (e.contains(at) || at.contains(e)),
        };
    });
}

async function tabTo(t, page, what, fits) {
    for (let i = 0; i < STEPS_MOST; i++) {
        await page.keyboard.press('Tab');
        const now = await focus(page);
        if (!now) continue;
        t.check(now.shows, `no visible focus on ${now.html}`);
        t.check(now.inSight, `out of sight with the focus: ${now.html}`);
        if (fits(now)) return;
    }
    throw new Error(`${what} is not reached with ${STEPS_MOST} times Tab`);
}

async function follow(t, page, text, address) {
    await tabTo(t, page, `the link ${text}`, now => now.element === 'a' && now.text === text);
    await page.keyboard.press('Enter');
    await page.waitForURL(address);
}

async function fill(t, page, name, value) {
    await tabTo(t, page, `the field ${name}`, now => now.name === name);
    if ((await focus(page)).element !== 'select') return page.keyboard.type(value);
    const chosen = () => page.evaluate(() => document.activeElement.value);
    for (let i = 0; (await chosen()) !== value; i++) {
        t.check(i < 50, `${name}: ${value} is not reached with the arrow down`);
        await page.keyboard.press('ArrowDown');
    }
}

async function byKeyboard(t) {
    const { url } = await t.serve();
    const context = await t.context({ viewport: { width: 768, height: 800 }, reducedMotion: 'reduce' });
    const page = await context.newPage();
    await page.goto(url);
    await page.keyboard.press('Tab');
    t.check((await focus(page))?.text === 'To the page itself', 'the first stop does not skip the navigation');
    await page.keyboard.press('Enter');
    await follow(t, page, 'Take one in', /\/intake$/);
    // In the order of the page, so that Tab only goes forward.
    const names = await page.$$eval('main [name]', all => all.map(e => e.name));
    for (const name of names.filter(name => name in vehicle && name !== 'currency')) await fill(t, page, name, vehicle[name]);
    await page.keyboard.press('Enter'); // in a field: the form is sent
    await page.waitForURL(/\/plan$/);
    await settled(page);
    await follow(t, page, 'Survey', /\/survey$/);
    await tabTo(t, page, 'a stop of the lap', now => now.element === 'a' && / of \d/.test(now.text));
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/survey\/[a-z-]+$/);
    await tabTo(t, page, 'a finding', now => now.name?.startsWith('all.') || now.name?.includes('~'));
    await page.keyboard.press('Space');
    const kept = page.waitForEvent('load'); // the address may be the same one again
    await page.keyboard.press('Enter');
    await kept;
    t.check(/\/survey(\/[a-z-]+)?(\?[^#]*)?(#.*)?$/.test(page.url()), 'a finding that is kept does not lead on in the survey');
    await page.goto(page.url().replace(/#.*/, '')); // Tab begins at the top again
    await follow(t, page, 'Plan', /\/plan$/);
    await settled(page);
    t.check((await page.locator('h1').innerText()).includes(vehicle.name), 'no plan at the end');
}

export const tests = [{ name: 'main job by keyboard', run: byKeyboard }];
