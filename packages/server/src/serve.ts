import { randomBytes } from 'node:crypto';
import type { AddressInfo, Server as NetServer, Socket } from 'node:net';
import { networkInterfaces } from 'node:os';
import { fileURLToPath } from 'node:url';
import { failed, type Outcome, ok } from '@fettle/core';
import { printingApart } from '@fettle/report';
import { type DataDirectory, openDataDirectory } from '@fettle/store';
import { createAdaptorServer } from '@hono/node-server';
import type { Context } from 'hono';
import { isLoopback, type Peer } from './access/access.ts';
import { Pairing, type PairingCode } from './access/pairing.ts';
import { createApp } from './app.ts';
import type { Report } from './report.ts';
import { heldDirectory } from './running.ts';

export interface ServeOptions {
  /** Path of the data directory, which is made when missing. */
  readonly directory: string;
  /** 0 takes any that is free. */
  readonly port: number;
  /** Where to listen; the machine itself unless `lan`. */
  readonly host?: string;
  /** Lets paired devices of the network in. */
  readonly lan?: boolean;
  readonly webRoot?: string;
  readonly report?: Report;
  readonly faulted?: (error: unknown) => void;
}

export interface Serving {
  readonly port: number;
  /** Where the desk opens it. */
  readonly address: string;
  /** Where other devices open it; none unless `lan`. */
  readonly addresses: readonly string[];
  /** A new code for one device; only with `lan`. */
  newPairingCode(): PairingCode;
  /** Ends streams and requests, and lets go of the data directory. */
  close(): Promise<void>;
}

/** The page as `npm run build` of the package web leaves it. */
const WEB_ROOT = fileURLToPath(new URL('../../web/dist/', import.meta.url));
/** How long requests under way may take to end [ms]. */
const LAST_ANSWERS = 1000;

/** Serves a data directory: one server a directory, on 127.0.0.1 unless told to open it to the network. */
export async function serve(options: ServeOptions): Promise<Outcome<Serving>> {
  const { port, lan = false, host = lan ? '0.0.0.0' : '127.0.0.1' } = options;
  if (!lan && !isLoopback(host) && host !== 'localhost')
    return failed({
      code: 'server/host-needs-lan',
      at: 'host',
      got: host,
      wanted: '127.0.0.1, or --lan',
      message: `Listening on ${host} would open the bench to the network. Say --lan: devices then need a code from the desk.`,
    });
  const directory = await openDataDirectory(options.directory);
  if (!directory.ok) return directory;
  const serving = await held(directory.value, { ...options, port, lan, host });
  if (!serving.ok) await directory.value.close();
  return serving;
}

async function held(
  directory: DataDirectory,
  options: ServeOptions & { readonly lan: boolean; readonly host: string },
): Promise<Outcome<Serving>> {
  const hold = await heldDirectory(directory.path);
  if (!hold.ok) return hold;
  const { lan, host } = options;
  const closing = new AbortController();
  const secret = randomBytes(32).toString('base64url');
  const random = (count: number): Uint8Array => new Uint8Array(randomBytes(count));
  const pairing = new Pairing(() => Date.now(), random);
  let port = options.port;
  const addresses = (): string[] => (lan ? networkAddresses().map((of) => `http://${of}:${port}/`) : []);
  const app = createApp({
    directory,
    report: options.report ?? printingApart(),
    webRoot: options.webRoot ?? WEB_ROOT,
    access: { peer: peerOf, secret, lan, pairing },
    random,
    closing: closing.signal,
    addresses,
    ...(options.faulted && { faulted: options.faulted }),
  });
  const server = createAdaptorServer({ fetch: app.fetch, hostname: host }) as NetServer & {
    closeAllConnections(): void;
    closeIdleConnections(): void;
  };
  const listening = await listened(server, port, host);
  if (!listening.ok) {
    hold.value.release();
    return listening;
  }
  port = listening.value;
  const address = `http://${host.includes(':') ? `[${host}]` : lan ? '127.0.0.1' : host}:${port}/`;
  try {
    hold.value.announce({ address, secret, pid: process.pid });
  } catch (error) {
    server.close();
    hold.value.release();
    return failed(cannotAnnounce(directory.path, error));
  }
  let closed: Promise<void> | undefined;
  const close = async (): Promise<void> => {
    closing.abort();
    const ended = new Promise<void>((resolve) => server.close(() => resolve()));
    server.closeIdleConnections();
    const timer = setTimeout(() => server.closeAllConnections(), LAST_ANSWERS);
    await ended;
    clearTimeout(timer);
    hold.value.release();
    await directory.close();
  };
  return ok({
    port,
    address,
    addresses: addresses(),
    newPairingCode: () => pairing.fresh(),
    close: () => {
      closed ??= close();
      return closed;
    },
  });
}

/** The port it listens on, or why not. */
function listened(server: NetServer, port: number, host: string): Promise<Outcome<number>> {
  return new Promise((resolve) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const isTaken = error.code === 'EADDRINUSE';
      resolve(
        failed({
          code: isTaken ? 'server/port-in-use' : 'server/cannot-listen',
          at: `${host}:${port}`,
          got: error.message,
          wanted: 'a port that is free',
          message: isTaken
            ? `Port ${port} is taken by another program. Choose another with --port or PORT; 0 takes any.`
            : `The server cannot listen on ${host}:${port} (${error.code}). Choose another with --port or PORT.`,
        }),
      );
    });
    server.listen(port, host, () => resolve(ok((server.address() as AddressInfo).port)));
  });
}

/** The two ends of a request's connection. One without them is treated as coming from elsewhere. */
function peerOf(c: Context): Peer {
  const socket = (c.env as { incoming?: { socket?: Socket } } | undefined)?.incoming?.socket;
  return { remote: socket?.remoteAddress ?? '', local: socket?.localAddress ?? '' };
}

function networkAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((of) => of ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
}

function cannotAnnounce(path: string, error: unknown) {
  const { code, message } = error as NodeJS.ErrnoException;
  return {
    code: code === 'ENOSPC' || code === 'EDQUOT' ? 'store/disk-full' : 'store/cannot-write',
    at: path,
    got: message,
    wanted: 'a directory that can be written',
    message: `${path} cannot be written (${code}), so the server did not start. Make room or give yourself the right to.`,
  };
}
