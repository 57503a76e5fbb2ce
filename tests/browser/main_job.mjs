// The steps of the main job, as a builder takes them, from an empty garage.
export const vehicle = {
    name: 'Rook', kind: 'car', year: '1961', standing: '20', storage: 'dry', hours: '6', 'a-month': '200 GBP', currency: 'GBP',
};

// Goes there and waits until what is reckoned is there.
export async function go(page, address) {
    const response = await page.goto(address);
    await settled(page);
    return response;
}

// A page that says how far a reckoning is comes again by itself.
export const settled = page => page.waitForSelector('#reckoning', { state: 'detached' });

// Fills what the intake asks by name, whether it is typed or chosen.
export async function fillIntake(page, answers) {
    for (const [name, value] of Object.entries(answers)) {
        const field = page.locator(`[name="${name}"]`);
        if ((await field.evaluate(e => e.localName)) === 'select') await field.selectOption(value);
        else await field.fill(value);
    }
}

export async function takeIn(page, url, answers = vehicle) {
    await page.goto(`${url}/intake`);
    await fillIntake(page, answers);
    await page.locator('main button.main').click();
    await page.waitForURL(/\/vehicle\/[0-9a-f]+\/plan$/);
    await settled(page);
    return new URL(page.url()).pathname.replace(/\/plan$/, '');
}

// Takes a photograph of whatever the page shows, and names it. The address of the photograph's own page.
export async function photograph(page, url, vehicle, note) {
    const buffer = await page.screenshot();
    await page.goto(`${url}${vehicle}/photographs`);
    await page.locator('[name=gallery]').setInputFiles({ name: 'look.png', mimeType: 'image/png', buffer });
    await page.locator('form.shoot button.main').click();
    const shot = page.locator('.shots a').first();
    const address = await shot.getAttribute('href');
    await shot.click();
    await page.locator('[name=note]').fill(note);
    await page.locator('main form button.main').click();
    await page.waitForURL(/\/photographs([?#].*)?$/);
    return address;
}
