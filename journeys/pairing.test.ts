import { networkInterfaces } from 'node:os';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, it } from 'vitest';
import { chromiumStarted, entered, errorsOf, introduced, SIZES } from './support/chromium.ts';
import { LINNET, workshop } from './support/workshop.ts';

/** An address of this machine by which it is to itself what another device is to it. */
const network = Object.values(networkInterfaces())
  .flatMap((of) => of ?? [])
  .find(({ family, internal }) => family === 'IPv4' && !internal);

if (!network)
  console.warn('This machine has no network address, so no device can come in: pairing is not walked here.');

it.skipIf(!network)(
  'lets a device of the network in by the code of the desk, until it is revoked',
  async () => {
    const [shop, browser] = await Promise.all([workshop('--lan'), chromiumStarted()]);
    try {
      const { addresses, code } = shop.opened;
      const address = addresses.find((one) => one.includes(network!.address));
      if (address === undefined || code === undefined)
        throw new Error(`"serve --lan --json" gave no address or no code: ${JSON.stringify(shop.opened)}`);
      const context = await browser.newContext(SIZES.tablet);
      const errors = errorsOf(context);
      const page = await context.newPage();

      const first = await page.goto(address);
      expect(first?.status()).toBe(403);
      await page.getByRole('heading', { name: 'Pair with the bench' }).waitFor();
      const { violations } = await new AxeBuilder({ page }).setLegacyMode().analyze();
      expect(violations.map(({ id }) => id)).toEqual([]);
      const api = await context.request.get(`${address}api/jobs`);
      expect(api.status()).toBe(403);
      expect(await api.text()).not.toContain('Linnet');

      const said = async (word: string): Promise<void> => {
        await page.getByLabel('Code').fill(word);
        await page.getByLabel('Name of this device').fill('bench tablet');
        await page.getByRole('button', { name: 'Pair' }).click();
      };
      // One letter off, whatever the code is.
      await said(`${code.slice(0, -1)}${code.endsWith('2') ? '3' : '2'}`);
      const refusal = page.getByRole('alert');
      await refusal.waitFor();
      expect(await refusal.textContent()).toMatch(/code/i);
      expect(await context.cookies()).toEqual([]);
      expect((await context.request.get(`${address}api/jobs`)).status()).toBe(403);

      await said(code.toLowerCase());
      await page.locator('#next-step').waitFor();
      const [cookie] = await context.cookies();
      expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Strict' });
      await introduced(page, 'the tablet');
      // Over plain HTTP a browser withholds much from a page; entering a reading must do without it.
      await page.goto(`${address}#/${LINNET}/at/crank.runout`);
      await entered(page, '0.0012');
      const byTablet = async () => (await shop.readings()).filter(({ who }) => who === 'the tablet');
      await expect
        .poll(byTablet, { timeout: 5000 })
        .toMatchObject([{ body: { characteristic: 'crank.runout' } }]);
      expect(JSON.parse(await shop.fettle('devices', '--json'))).toMatchObject([{ name: 'bench tablet' }]);
      // The code let one device in and is used up.
      const another = await browser.newContext();
      const second = await another.request.post(`${address}api/pair`, {
        data: { code, name: 'a second tablet' },
        headers: { origin: new URL(address).origin },
      });
      expect(second.status()).toBe(403);

      await shop.fettle('devices', 'revoke', 'bench tablet');
      expect((await context.request.get(`${address}api/jobs`)).status()).toBe(403);
      const shutOut = await page.goto(address);
      expect(shutOut?.status()).toBe(403);
      await page.getByRole('heading', { name: 'Pair with the bench' }).waitFor();
      expect(errors).toEqual([]);
    } finally {
      await browser.close();
      await shop.close();
    }
  },
);
