// Every page there is, by the table of routes: what is added there is looked at here without being named. Only a new piece
// in capitals needs a line in `everyPage`.
import { readFileSync } from 'node:fs';
import { go } from './main_job.mjs';

// Of some there are dozens alike: so many of each are looked at, all with LONG=1. Of the entries of the trade data, hundreds,
// always the first of each subject.
export const LONG = !!process.env.LONG;
const alike = { '/trade/SUBJECT': 3, '/bench/SUM': 3, '/vehicle/ID/survey/PLACE': 3, '/vehicle/ID/safe/GATE': 2 };
const some = (pattern, all) => (LONG ? all : all.slice(0, alike[pattern]));
// Looked at by test_phone.mjs: only a phone that is to be paired is shown them.
const elsewhere = new Set(['/pair', '/pair/CODE']);

export const failures = [
    { path: '/nothing', status: 404 },
    { path: '/vehicle/0000/plan', status: 404 },
    { path: '/trade/nothing', status: 404 },
    { path: '/trade/jobs/nothing', status: 404 },
    { path: '/trade?words=a&words=b', status: 400 },
];
export const queries = ['/trade?words=drum', '/trade?words=nowhere+to+be+found'];

function patterns() {
    const table = readFileSync('src/face/web/route.c', 'utf8').matchAll(/\{METHOD_GET, "([^"]+)"/g);
    return [...table].map(m => m[1])
        .filter(pattern => !/\.(css|js|pdf|ics)$|^\/photograph\//.test(pattern) && !elsewhere.has(pattern)); // files, not pages
}

// All links on a page that fit the pattern.
async function links(page, url, from, pattern) {
    const fits = new RegExp(`^${pattern.replace(/\b[A-Z]+\b/g, '[^/?#]+')}$`);
    await go(page, url + from);
    const found = await page.$$eval('a[href]', all => all.map(a => a.getAttribute('href')));
    return [...new Set(found)].filter(address => fits.test(address));
}

// Where there are forms that take text.
export const formPages = (vehicle, photograph) => ['/trade', '/intake', '/find', '/bench/metric-thread', '/buying/quote', '/buying/order',
    '/buying/person', ...['survey', 'what-if', 'fit', 'log', 'bags', 'session', 'setback', 'identify', 'originality'].map(page => `${vehicle}/${page}`), photograph];

// The addresses of all pages of this garage, as { path, status }; those of one vehicle, the first if none is given.
export async function everyPage(page, url, vehicle) {
    const out = [];
    vehicle ??= (await links(page, url, '/', '/vehicle/ID/plan'))[0]?.replace(/\/plan$/, '');
    const subjects = await links(page, url, '/trade', '/trade/SUBJECT');
    for (const pattern of patterns()) {
        const found = from => links(page, url, from, pattern.replace('/vehicle/ID', vehicle));
        if (!/[A-Z]/.test(pattern)) out.push(pattern);
        else if (pattern === '/vehicle/ID/survey/PLACE')
            out.push(...some(pattern, (await found(`${vehicle}/survey`)).filter(a => !a.endsWith('/everything'))));
        else if (pattern === '/bag/CODE') out.push(...(await found(`${vehicle}/bags`)));
        else if (pattern === '/vehicle/ID/safe/GATE') out.push(...some(pattern, await found(`${vehicle}/safe`)));
        else if (pattern === '/vehicle/ID/photographs/PHOTO') out.push(...(await found(`${vehicle}/photographs`)));
        else if (pattern === '/bench/SUM') out.push(...some(pattern, await found('/bench')));
        else if (pattern === '/trade/SUBJECT') out.push(...some(pattern, subjects));
        else if (pattern === '/trade/SUBJECT/ID')
            for (const subject of subjects) out.push((await links(page, url, subject, `${subject}/ID`))[0]);
        else if (pattern === '/buying/KIND') out.push(...(await found('/buying')));
        else if (pattern === '/buying/KIND/RECORD')
            for (const kind of await links(page, url, '/buying', '/buying/KIND'))
                out.push(...(await links(page, url, kind, `${kind}/RECORD`)).slice(0, 1));
        else if (pattern === '/vehicle/ID/setback')
            out.push(`${vehicle}/setback`, `${vehicle}/setback?what=snapped-stud&is=flush&thread=M8`);
        else if (pattern === '/vehicle/ID/view') continue; // of one that is not owned: test_every_page.mjs takes one in
        else if (/^\/vehicle\/ID[^A-Z]*$/.test(pattern)) out.push(pattern.replace('/vehicle/ID', vehicle));
        else throw new Error(`${pattern}: tests/browser/pages.mjs does not know how to reach it`);
    }
    return [...out, ...queries].map(path => ({ path, status: 200 })).concat(failures);
}
