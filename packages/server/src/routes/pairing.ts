import type { OpenAPIHono } from '@hono/zod-openapi';
import { setCookie } from 'hono/cookie';
import { DEVICE_COOKIE, deskOnly, isAtDesk } from '../access/access.ts';
import { deviceAdded, deviceRevoked, pairedDevices } from '../access/devices.ts';
import { deviceName, type PairingCode, type TryRefused } from '../access/pairing.ts';
import { jsonOf, LIMITS, mediaOf, textOf } from '../body.ts';
import { pairPage } from '../page/pair-page.ts';
import type { Parts } from '../parts.ts';
import { given, Refusal } from '../problem.ts';
import { devicePath, devices, paired, pairingCode, pairingTry, session } from '../schemas.ts';
import { documented, read } from './documented.ts';

const FORM = 'application/x-www-form-urlencoded';
/** A year [s]; revoking ends it sooner. */
const COOKIE_AGE = 365 * 24 * 3600;

export function pairingRoutes(app: OpenAPIHono, parts: Parts): void {
  const { access, directory, now } = parts;
  documented(app, {
    method: 'get',
    path: '/api/session',
    summary: 'Whether this client sits at the desk, and where other devices find the bench',
    answers: { 200: { says: 'Who asks', content: { 'application/json': session } } },
    handler: (c) =>
      c.json({
        local: isAtDesk(c, access),
        lan: access.lan,
        addresses: access.lan ? [...parts.addresses()] : [],
      }),
  });
  documented(app, {
    method: 'post',
    path: '/api/pair',
    summary: 'Lets a device in by the code shown at the desk',
    body: { 'application/json': pairingTry, [FORM]: pairingTry },
    answers: {
      201: { says: 'Paired; the cookie is set', content: { 'application/json': paired } },
      303: { says: 'Paired by the form: on to the page' },
    },
    handler: async (c) => {
      const isForm = mediaOf(c, ['application/json', FORM]) === FORM;
      try {
        const said = isForm
          ? Object.fromEntries(new URLSearchParams(await textOf(c, LIMITS.form)))
          : await jsonOf(c, LIMITS.form);
        const { code, name } = read(pairingTry, said);
        if (!access.lan) throw new Refusal(403, [noLan]);
        const named = given(deviceName(name));
        const refused = access.pairing.tried(code, access.peer(c).remote);
        if (refused) throw tryRefused(refused);
        const { device, secret } = given(await deviceAdded(directory.path, named, now()));
        // No Secure: within a workshop there is no certificate. SameSite and our own look at Origin stand guard.
        setCookie(c, DEVICE_COOKIE, secret, {
          httpOnly: true,
          sameSite: 'Strict',
          path: '/',
          maxAge: COOKIE_AGE,
        });
        return isForm ? c.redirect('/', 303) : c.json({ device: device.id, name: device.name }, 201);
      } catch (error) {
        if (!isForm || !(error instanceof Refusal)) throw error;
        return c.html(pairPage(error.message), error.status as 400, { ...error.headers });
      }
    },
  });
  documented(app, {
    method: 'get',
    path: '/api/pairing',
    summary: 'The code that holds now; at the desk only',
    answers: { 200: { says: 'The code', content: { 'application/json': pairingCode } } },
    handler: (c) => {
      deskOnly(c, access);
      return c.json(shown(access.pairing.current));
    },
  });
  documented(app, {
    method: 'post',
    path: '/api/pairing',
    summary: 'A new code, good for one device and five minutes; at the desk only',
    answers: { 201: { says: 'The code', content: { 'application/json': pairingCode } } },
    handler: (c) => {
      deskOnly(c, access);
      if (!access.lan) throw new Refusal(403, [noLan]);
      return c.json(shown(access.pairing.fresh()), 201);
    },
  });
  documented(app, {
    method: 'get',
    path: '/api/devices',
    summary: 'The paired devices; at the desk only',
    answers: { 200: { says: 'The devices', content: { 'application/json': devices } } },
    handler: (c) => {
      deskOnly(c, access);
      return c.json(given(pairedDevices(directory.path)));
    },
  });
  documented(app, {
    method: 'delete',
    path: '/api/devices/{id}',
    summary: 'Revokes a device; at the desk only',
    params: devicePath,
    answers: { 204: { says: 'It is let in no more' } },
    handler: async (c, { params }) => {
      deskOnly(c, access);
      given(await deviceRevoked(directory.path, params.id));
      return c.body(null, 204);
    },
  });
}

const shown = (code: PairingCode | undefined) => ({
  code: code?.code ?? null,
  expires: code ? new Date(code.expires).toISOString() : null,
});

const tryRefused = ({ status, issue, wait }: TryRefused): Refusal =>
  new Refusal(status, [issue], wait === undefined ? {} : { 'Retry-After': String(wait) });

const noLan = {
  code: 'pairing/not-open',
  at: '',
  got: 'a bench that answers only at its desk',
  wanted: 'a bench open to the network',
  message: 'This bench is not open to other devices. Start it with "fettle serve --lan".',
};
