// A garage of its own, empty, and the pages over it: gone when closed.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const FETTLE = process.env.FETTLE ?? 'build/fettle';
const TODAY = '2026-11-25';

export async function serve(...options) {
    const folder = mkdtempSync(join(tmpdir(), 'fettle-browser-'));
    const garage = join(folder, 'garage');
    execFileSync(FETTLE, ['new', garage], { stdio: 'pipe' });
    const child = spawn(FETTLE, ['serve', '--port', '0', '--date', TODAY, '--garage', garage, ...options]);
    let said = '';
    const url = await new Promise((tell, fail) => {
        child.on('error', fail);
        child.on('exit', code => fail(new Error(`fettle serve ended with ${code}: ${said}`)));
        child.stderr.on('data', bytes => (said += bytes));
        child.stdout.on('data', bytes => {
            said += bytes;
            const address = said.match(/http:\/\/localhost:\d+/);
            if (address) tell(address[0]);
        });
    });
    child.removeAllListeners('exit');
    const ended = new Promise(tell => child.on('exit', (code, signal) => tell(signal ?? code)));
    return {
        url,
        garage,
        async close() {
            child.kill('SIGTERM');
            const code = await ended;
            rmSync(folder, { recursive: true });
            if (code !== 0) throw new Error(`fettle serve ended with ${code}: ${said}`);
        },
    };
}
