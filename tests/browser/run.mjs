// run.mjs [WORD]   the pages in a real browser: one Chromium, tests two at a time, each with a garage of its own.
// Only tests whose name holds WORD, if one is given. Screenshots go to build/screens. Prints a line a test and a count.
import { mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { cpus } from 'node:os';
import { serve } from './serve.mjs';
import { tests as everyPage } from './test_every_page.mjs';
import { tests as keyboard } from './test_keyboard.mjs';
import { tests as mainJob } from './test_main_job.mjs';
import { tests as payloads } from './test_payloads.mjs';
import { tests as phone } from './test_phone.mjs';

const { chromium } = createRequire(new URL('../../build/browser/', import.meta.url))('playwright-core');
const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const SCREENS = 'build/screens';
const PATIENCE_MS = 120000; // for one step that takes a second where nothing else runs

const word = process.argv[2] ?? '';
const waiting = [everyPage, payloads, mainJob, keyboard, phone].flat().filter(test => test.name.includes(word));
let passed = 0, failed = 0;
mkdirSync(SCREENS, { recursive: true });
const browser = await chromium.launch({ executablePath: CHROMIUM });

// What a test is given. Whatever it opens is closed after it, whether it holds or not.
function makeTest(name) {
    const opened = [];
    return {
        browser,
        checked: 0,
        notes: [],
        check(good, what) {
            this.checked++;
            if (!good) throw new Error(what);
        },
        async serve(...options) {
            const server = await serve(...options);
            opened.push(server);
            return server;
        },
        async context(options) {
            const context = await browser.newContext(options);
            context.setDefaultTimeout(PATIENCE_MS);
            opened.push(context);
            return context;
        },
        screen: file => `${SCREENS}/${file}.png`,
        async close() {
            for (const thing of opened.reverse()) await thing.close();
        },
    };
}

async function runOne(test) {
    const t = makeTest(test.name);
    let wrong = null;
    const begun = Date.now();
    try {
        await test.run(t);
    } catch (e) {
        wrong = e;
    }
    await t.close().catch(e => (wrong ??= e));
    if (wrong) failed++;
    else passed++;
    if (wrong) console.log(`== browser: ${test.name} failed\n${wrong.stack}`);
    else console.log(`ok browser: ${test.name}: ${t.checked} checks, ${((Date.now() - begun) / 1000).toFixed(1)} s`);
    for (const note of t.notes) console.log(`   ${note}`);
}

async function worker() {
    for (let test; (test = waiting.shift()); ) await runOne(test);
}
await Promise.all(cpus().slice(0, 4).map(worker));
await browser.close();
console.log(`${passed} passed, ${failed} failed in the browser`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
