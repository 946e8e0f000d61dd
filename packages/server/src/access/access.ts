import { createHash, timingSafeEqual } from 'node:crypto';
import { isIPv6 } from 'node:net';
import { hostname } from 'node:os';
import type { Issue } from '@fettle/core';
import type { Context, MiddlewareHandler } from 'hono';
import { getCookie } from 'hono/cookie';
import { pairPage } from '../page/pair-page.ts';
import { Refusal } from '../problem.ts';
import { deviceWithSecret } from './devices.ts';
import type { Pairing } from './pairing.ts';

/** The two ends of the connection a request came by. */
export interface Peer {
  readonly remote: string;
  readonly local: string;
}

/** Who is let in. */
export interface Access {
  readonly peer: (c: Context) => Peer;
  /** Known to whoever may read the data directory: the command line. */
  readonly secret: string;
  /** Devices of the network are let in when they are paired. */
  readonly lan: boolean;
  readonly pairing: Pairing;
}

export const DEVICE_COOKIE = 'fettle-device';
const LOOPBACK_NAMES: ReadonlySet<string> = new Set(['localhost', '127.0.0.1', '[::1]']);
/** What an unpaired device may ask for. */
const BEFORE_PAIRING: ReadonlySet<string> = new Set(['GET /pair', 'GET /pair.css', 'POST /api/pair']);

export const isLoopback = (address: string): boolean =>
  address === '::1' || /^(::ffff:)?127\.\d+\.\d+\.\d+$/.test(address);

/** Whether this request may be answered, looked at before anything else is. */
export function accessGuard(access: Access, directory: string): MiddlewareHandler {
  return async (c, next) => {
    hostChecked(c, access);
    originChecked(c);
    secretChecked(c, access);
    if (!isAdmitted(c, access, directory)) {
      const { path, method } = c.req;
      if (!access.lan) throw new Refusal(403, [notHere(access.peer(c).remote)]);
      if (!BEFORE_PAIRING.has(`${method} ${path}`)) {
        if (method === 'GET' && !path.startsWith('/api/') && c.req.header('accept')?.includes('text/html'))
          return c.html(pairPage(), 403);
        throw new Refusal(403, [notPaired]);
      }
    }
    await next();
  };
}

/** At the desk itself, or a device whose pairing stands now. */
export function isAdmitted(c: Context, access: Access, directory: string): boolean {
  if (isAtDesk(c, access)) return true;
  const secret = access.lan ? getCookie(c, DEVICE_COOKIE) : undefined;
  return secret !== undefined && deviceWithSecret(directory, secret) !== undefined;
}

export const isAtDesk = (c: Context, access: Access): boolean => isLoopback(access.peer(c).remote);

export function deskOnly(c: Context, access: Access): void {
  if (!isAtDesk(c, access)) throw new Refusal(403, [deskWanted]);
}

/** The secret of the data directory was shown: whoever asks may read its files. */
export function secretWanted(c: Context): void {
  if (c.req.header('authorization') === undefined)
    throw new Refusal(401, [wrongSecret('no secret')], { 'WWW-Authenticate': 'Bearer' });
}

function secretChecked(c: Context, { secret }: Access): void {
  const said = c.req.header('authorization');
  if (said === undefined) return;
  const hash = (text: string): Buffer => createHash('sha256').update(text).digest();
  if (!timingSafeEqual(hash(said), hash(`Bearer ${secret}`)))
    throw new Refusal(401, [wrongSecret('another secret')], { 'WWW-Authenticate': 'Bearer' });
}

/** A page of elsewhere whose name was made to lead here still calls us by that name. */
function hostChecked(c: Context, access: Access): void {
  const host = c.req.header('host') ?? '';
  const name = /^(\[[0-9a-f:.]+\]|[^:/@]+)(:\d{1,5})?$/i.exec(host)?.[1]?.toLowerCase();
  if (name !== undefined && (LOOPBACK_NAMES.has(name) || (access.lan && isOwnName(name, access.peer(c)))))
    return;
  throw new Refusal(403, [
    {
      code: 'access/foreign-host',
      at: 'Host',
      got: host.slice(0, 100) || 'nothing',
      wanted: 'an address of this machine',
      message: `This bench does not answer to the name ${host.slice(0, 100) || '(none)'}. Open it by the address it printed when it was started.`,
    },
  ]);
}

function isOwnName(name: string, { local }: Peer): boolean {
  const plain = local.replace(/^::ffff:/, '');
  const own = hostname().toLowerCase();
  return [isIPv6(plain) ? `[${plain}]` : plain, own, `${own.split('.')[0]}.local`].includes(name);
}

/** Only our own page may ask from within a browser, to read as to write. */
function originChecked(c: Context): void {
  const origin = c.req.header('origin');
  const site = c.req.header('sec-fetch-site');
  const isOwn =
    origin === undefined || origin.toLowerCase() === `http://${c.req.header('host')?.toLowerCase()}`;
  // A link from elsewhere may open the page; it may not reach for what is behind it.
  const isOwnSite =
    site === undefined || site === 'same-origin' || site === 'none' || !c.req.path.startsWith('/api/');
  if (isOwn && isOwnSite) return;
  throw new Refusal(403, [
    {
      code: 'access/foreign-origin',
      at: 'Origin',
      got: (origin ?? `a page of elsewhere (${site})`).slice(0, 100),
      wanted: 'the bench page itself',
      message: 'Another web page asked for this. Only the bench page may; open it and do it there.',
    },
  ]);
}

const notHere = (remote: string): Issue => ({
  code: 'access/not-this-machine',
  at: 'address',
  got: remote,
  wanted: 'this machine',
  message: 'This bench answers only at its own desk. Start it with "fettle serve --lan" to let devices in.',
});

const notPaired: Issue = {
  code: 'access/not-paired',
  at: 'device',
  got: 'a device that is not paired',
  wanted: 'a paired device',
  message:
    'This device is not paired with the bench, or no longer. Open /pair and type the code shown at the desk.',
};

const deskWanted: Issue = {
  code: 'access/desk-only',
  at: 'address',
  got: 'a device of the network',
  wanted: 'the desk itself',
  message: 'Devices are paired and revoked at the desk only. Do it there.',
};

const wrongSecret = (got: string): Issue => ({
  code: 'access/wrong-secret',
  at: 'Authorization',
  got,
  wanted: 'the secret in server.json of the data directory',
  message:
    'The secret is not the one of this server. It changes with every start; read it again from server.json.',
});
