// A phone is let in by the code that this machine shows, and out again.
import { inspect } from './inspect.mjs';

const NAME = '"><script>alert(1)</script>'; // the phone's own, as it says

async function pairing(t) {
    const { url } = await t.serve('--share');
    const here = await (await t.context({ reducedMotion: 'reduce' })).newPage();
    const phone = await (await t.context({ viewport: { width: 320, height: 640 }, ignoreHTTPSErrors: true, reducedMotion: 'reduce' }))
        .newPage();
    await here.goto(`${url}/devices`);
    await inspect(t, here, '/devices with a code');
    const address = await here.getByText(/^https:/).first().innerText(), code = await here.locator('.code').innerText();

    await phone.goto(new URL('/', address).href);
    t.check(new URL(phone.url()).pathname === '/pair', 'a phone that is not paired sees more than where to pair');
    await inspect(t, phone, '/pair');
    await phone.fill('[name=code]', code.startsWith('AAAA') ? 'BBBB-BBBB' : 'AAAA-AAAA');
    await phone.locator('main button.main').click();
    await phone.locator('[aria-invalid]').waitFor();
    await inspect(t, phone, '/pair with a wrong code');
    await phone.fill('[name=code]', code);
    await phone.fill('[name=name]', NAME);
    await phone.locator('main button.main').click();
    const yard = phone.getByText('No vehicle in the garage yet'), soon = phone.getByText('too soon after a wrong code');
    for (let tries = 0; await soon.or(yard).waitFor().then(() => soon.isVisible()); tries++) {
        t.check(tries < 10, 'the right code is not taken after a wrong one');
        await phone.waitForTimeout(500);
        await phone.locator('main button.main').click();
        await phone.waitForLoadState();
    }

    await here.reload();
    t.check((await here.locator('.card h3').innerText()) === NAME, 'the phone is not listed by its name');
    await inspect(t, here, '/devices with a phone');
    await here.locator('.card button').click();
    await here.getByText('None.').waitFor();
    await phone.reload();
    t.check(new URL(phone.url()).pathname === '/pair', 'a phone whose access was ended still has it');
}

export const tests = [{ name: 'a phone', run: pairing }];
