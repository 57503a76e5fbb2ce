// Every page there is, by the table of routes: what is added there is looked at here without being named. Only a
// piece in capitals that we do not know needs a line in `pieces`.
import { readFileSync } from 'node:fs';
import { go } from './main_job.mjs';

// How a piece becomes addresses: all that the pages themselves link to below what stands before it.
const pieces = ['ID', 'SUBJECT', 'PLACE', 'SUM'];
// Of some there are hundreds alike: the first of each kind is enough.
const one_of_each = new Set(['/trade/SUBJECT/ID']);
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
    return [...table].map(m => m[1]).filter(pattern => !/\.(css|js)$/.test(pattern) && !elsewhere.has(pattern));
}

// All links on a page that fit the pattern.
async function links(page, url, from, pattern) {
    const fits = new RegExp(`^${pattern.replace(/\b[A-Z]+\b/g, '[^/?#]+')}$`);
    await go(page, url + from);
    const found = await page.$$eval('a[href]', all => all.map(a => a.getAttribute('href')));
    return [...new Set(found)].filter(address => fits.test(address));
}

// Where there are forms that take text.
export const formPages = vehicle => ['/trade', '/intake', `${vehicle}/survey`, `${vehicle}/what-if`, '/bench/metric-thread'];

// The addresses of all pages of this garage, as { path, status }; those of one vehicle, the first if none is given.
export async function everyPage(page, url, vehicle) {
    const out = [];
    vehicle ??= (await links(page, url, '/', '/vehicle/ID/plan'))[0]?.replace(/\/plan$/, '');
    const subjects = await links(page, url, '/trade', '/trade/SUBJECT');
    for (const pattern of patterns()) {
        const unknown = pattern.match(/\b[A-Z]+\b/g)?.find(piece => !pieces.includes(piece));
        if (unknown) throw new Error(`${pattern}: say in tests/browser/pages.mjs what ${unknown} stands for`);
        if (!/[A-Z]/.test(pattern)) out.push(pattern);
        else if (pattern === '/vehicle/ID/survey/PLACE')
            out.push(...(await links(page, url, `${vehicle}/survey`, `${vehicle}/survey/PLACE`)).filter(a => !a.endsWith('/everything')));
        else if (pattern.startsWith('/vehicle/ID')) out.push(pattern.replace('/vehicle/ID', vehicle));
        else if (pattern === '/bench/SUM') out.push(...(await links(page, url, '/bench', pattern)));
        else if (pattern === '/trade/SUBJECT') out.push(...subjects);
        else if (one_of_each.has(pattern))
            for (const subject of subjects) out.push((await links(page, url, subject, `${subject}/ID`))[0]);
        else throw new Error(`${pattern}: tests/browser/pages.mjs does not know how to reach it`);
    }
    return [...out, ...queries].map(path => ({ path, status: 200 })).concat(failures);
}
