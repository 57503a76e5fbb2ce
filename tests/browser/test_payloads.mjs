// Text that would be markup or script, in every field of every form: on no page does it run or become an element.
// The content security policy is put aside, so that the escaping alone is tried.
import { readFileSync } from 'node:fs';
import { fillIntake, go, photograph, settled, takeIn, vehicle } from './main_job.mjs';
import { everyPage, formPages, LONG } from './pages.mjs';

const all = LONG ? 1 : 8; // payloads in one field: one by one takes minutes
const payloads = readFileSync('tests/web/payloads.txt', 'utf8').split('\n').filter(line => line);
const HARMLESS = 'bolt';
const NOTE_MOST = 900; // characters of one note

async function open(t) {
    const context = await t.context({ bypassCSP: true, reducedMotion: 'reduce' });
    const page = await context.newPage();
    page.ran = [];
    page.on('dialog', dialog => {
        page.ran.push(dialog.message());
        dialog.dismiss();
    });
    return page;
}

// Every element with each of its attributes, as "element attribute": what was typed may add none.
const parts = page => page.evaluate(() => [...new Set([...document.querySelectorAll('*')]
    .flatMap(e => [e.localName, ...e.getAttributeNames().map(name => `${e.localName} ${name}`)]))]);

async function unharmed(t, page, known, what) {
    await page.evaluate(() => new Promise(done => setTimeout(done, 0)));
    t.check(page.ran.length === 0, `${what}: it ran`);
    const added = (await parts(page)).filter(part => !known.has(part));
    t.check(added.length === 0, `${what}: came onto the page: ${added.join(', ')}`);
    const scripts = await page.$$eval('a[href], form[action]', all => all.filter(e => /^\s*(javascript|data|vbscript):/i
        .test(e.getAttribute('href') ?? e.getAttribute('action'))).length);
    t.check(scripts === 0, `${what}: an address runs script`);
}

function grouped() {
    const groups = [];
    for (let i = 0; i < payloads.length; i += all) groups.push(payloads.slice(i, i + all).join(' '));
    return groups;
}

// Puts the text into all fields of one form, whatever kind they are of, and sends it. What the fields were called.
async function send(page, index, text) {
    const arrived = page.waitForNavigation();
    const names = await page.evaluate(([index, text]) => {
        const form = document.forms[index], names = [];
        for (const e of form.querySelectorAll('input:not([type=hidden], [type=file], [type=submit]), select, textarea')) {
            if (e.localName === 'select') e.add(new Option(text, text));
            else if (['radio', 'checkbox'].includes(e.type)) e.checked = true;
            else if (e.localName === 'input') e.type = 'text'; // not held to a number or a day by the browser
            e.value = text;
            for (const limit of ['required', 'pattern', 'maxlength']) e.removeAttribute(limit);
            if (e.type !== 'radio' && !names.includes(e.name)) names.push(e.name); // a tile that there is not cannot come back
        }
        const button = form.querySelector('button'); // the first is what the return key presses
        if (button?.name) form.append(Object.assign(document.createElement('input'), { type: 'hidden', name: button.name, value: button.value }));
        HTMLFormElement.prototype.submit.call(form); // past what a script would make of it
        return names;
    }, [index, text]);
    return { names, response: await arrived };
}

// The forms of a page that have something to fill in.
const formsToFill = page => page.evaluate(() => [...document.forms].map((form, i) => [form, i])
    .filter(([form]) => form.querySelector('input:not([type=hidden], [type=file]), select, textarea')).map(([, i]) => i));

async function intoEveryField(t) {
    const { url } = await t.serve();
    const page = await open(t);
    const path = await takeIn(page, url);
    let sent = 0, fields = 0;
    for (const form of formPages(path, await photograph(page, url, path, HARMLESS))) {
        await page.goto(url + form);
        await settled(page);
        for (const index of await formsToFill(page)) {
            const known = new Set(await parts(page));
            await send(page, index, HARMLESS);
            for (const field of ['input', 'select', 'textarea']) known.add(`${field} aria-invalid`); // the word may be a right answer
            known.add('p role'); // what is said of it, either way
            for (const part of await parts(page)) known.add(part);
            await page.goto(url + form); // what it shows once something is stored
            await settled(page);
            for (const part of await parts(page)) known.add(part);
            for (const payload of grouped()) {
                await page.goto(url + form);
                await settled(page);
                const { names, response } = await send(page, index, payload);
                t.check(response.status() < 500, `${form}: ${response.status()} after ${payload}`);
                await unharmed(t, page, known, `${form}: ${payload}`);
                const back = await page.$$eval('main [name]', all => all.map(e => [e.name, e.value]));
                const lost = names.filter(name => response.status() !== 200 &&
                    back.some(b => b[0] === name) && !back.some(b => b[0] === name && b[1] === payload));
                t.check(lost.length === 0, `${form}: ${payload} did not come back in ${lost.join(', ')}`);
                sent++;
                fields += names.length;
            }
        }
    }
    t.notes.push(`${payloads.length} payloads, ${sent} forms sent, ${fields} fields filled: nothing ran, no element was added`);
}

// The pages that show what was stored.
const own = async (page, url, vehicle) => (await everyPage(page, url, vehicle)).map(({ path }) => path)
    .filter(path => !/^\/(trade|bench)/.test(path));

async function stored(t) {
    const { url } = await t.serve();
    const page = await open(t);
    const path = await takeIn(page, url, vehicle);
    await photograph(page, url, path, HARMLESS);
    const known = new Set();
    for (const address of await own(page, url, path)) {
        await go(page, url + address);
        for (const part of await parts(page)) known.add(part);
    }
    // As notes: all of them, a few to a note.
    const notes = [];
    for (const payload of payloads)
        if (notes.length && notes.at(-1).length + payload.length < NOTE_MOST) notes.push(`${notes.pop()} ${payload}`);
        else notes.push(payload);
    for (const note of notes) {
        await page.goto(`${url}${path}/survey`);
        await fillIntake(page, { component: 'battery', condition: 'worn', note });
        const told = page.waitForNavigation();
        await page.locator('main form button').last().click();
        t.check((await told).status() === 200, `the note ${note} was not taken`);
        await unharmed(t, page, known, `the note ${note}`);
    }
    const shot = await photograph(page, url, path, notes[0]);
    await page.goto(url + shot);
    await unharmed(t, page, known, `${shot} of ${notes[0]}`);
    t.check((await page.getAttribute('.shot img', 'alt')) === notes[0], `${shot} does not say ${notes[0]} as text`);
    // As names: those that leave a title, an attribute and a drawing.
    const leavers = ['</title>', '">', '</desc></svg>'].map(begin => payloads.find(line => line.startsWith(begin)));
    const all_three = '</title>"></desc></svg><script>alert(1)</script>'; // a name is short
    for (const name of LONG ? leavers : [all_three]) {
        const answers = { name, kind: 'car', maker: name, model: name };
        const asked = await page.goto(`${url}/intake`).then(() => page.$$eval('main [name]', all => all.map(e => e.name)));
        const at = await takeIn(page, url, Object.fromEntries(Object.entries(answers).filter(([key]) => asked.includes(key))));
        for (const address of await own(page, url, at)) {
            await go(page, url + address);
            await unharmed(t, page, known, `${address} of ${name}`);
            const said = await page.evaluate(() => [document.title, document.body.innerText,
                ...[...document.querySelectorAll('[aria-label]')].map(e => e.ariaLabel)].join(' '));
            if (address.startsWith(at)) t.check(said.includes(name), `${address} does not say ${name} as text`);
        }
    }
    t.notes.push(`${notes.length} notes and a name for a title, an attribute and a drawing stored: text on every page`);
}

// The same lines unescaped do run: so what is looked for above is there to be found.
async function control(t) {
    const page = await open(t);
    let ran = 0;
    for (const payload of payloads) {
        page.ran.length = 0;
        await page.setContent(`<p title="x">${payload}</p>`, { waitUntil: 'load' }).catch(() => {});
        if (page.ran.length) ran++;
    }
    t.check(ran >= 20, `only ${ran} of ${payloads.length} run where they are not escaped`);
    t.notes.push(`unescaped, ${ran} of ${payloads.length} run by themselves`);
}

export const tests = [
    { name: 'payloads in every field', run: intoEveryField },
    { name: 'payloads stored', run: stored },
    { name: 'payloads unescaped', run: control },
];
