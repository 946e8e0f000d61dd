import { createHash, timingSafeEqual } from 'node:crypto';
import { failed, type Issue, type Outcome, ok } from '@fettle/core';

/** Without 0, O, 1, I, L: read from a screen across a bench. */
const LETTERS = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
const LENGTH = 6;
/** How long a code holds [ms]. */
const LIFETIME = 5 * 60_000;
/** Wrong tries of one address within a lifetime, and of all addresses at one code. */
const TRIES_OF_ONE = 5;
const TRIES_OF_ALL = 20;

export interface PairingCode {
  readonly code: string;
  /** Unix time [ms]. */
  readonly expires: number;
}

export type TryRefused = { readonly status: 403 | 429; readonly issue: Issue; readonly wait?: number };

/**
 * The one code at a time by which a device is let in: shown at the desk, good for one device and five minutes.
 * Twenty wrong tries void it: of its 31⁶ forms that leaves a guesser one chance in 44 million.
 */
export class Pairing {
  readonly #now: () => number;
  readonly #random: (count: number) => Uint8Array;
  #code: PairingCode | undefined;
  #wrong = 0;
  /** When each address was wrong [ms]. */
  readonly #wrongFrom = new Map<string, number[]>();

  constructor(now: () => number, random: (count: number) => Uint8Array) {
    this.#now = now;
    this.#random = random;
  }

  get current(): PairingCode | undefined {
    if (this.#code && this.#code.expires <= this.#now()) this.#code = undefined;
    return this.#code;
  }

  /** A new code; the one before it is void. */
  fresh(): PairingCode {
    let code = '';
    while (code.length < LENGTH)
      // Bytes past the last whole round of the letters would favour the first of them.
      for (const byte of this.#random(16))
        if (byte < 256 - (256 % LETTERS.length) && code.length < LENGTH)
          code += LETTERS[byte % LETTERS.length];
    this.#wrong = 0;
    this.#code = { code, expires: this.#now() + LIFETIME };
    return this.#code;
  }

  /** Uses the code up when it is the right one; otherwise says why it was not. */
  tried(said: string, address: string): TryRefused | undefined {
    const now = this.#now();
    for (const [from, times] of this.#wrongFrom) {
      const lately = times.filter((time) => time > now - LIFETIME);
      if (lately.length > 0) this.#wrongFrom.set(from, lately);
      else this.#wrongFrom.delete(from);
    }
    const before = this.#wrongFrom.get(address) ?? [];
    if (before.length >= TRIES_OF_ONE) {
      const wait = Math.ceil((before[0]! + LIFETIME - now) / 1000);
      return { status: 429, issue: tooMany(wait), wait };
    }
    const code = this.current;
    if (!code) return { status: 403, issue: noCode };
    if (isSame(plain(said), code.code)) {
      this.#code = undefined;
      return undefined;
    }
    this.#wrongFrom.set(address, [...before, now]);
    this.#wrong += 1;
    if (this.#wrong >= TRIES_OF_ALL) this.#code = undefined;
    return { status: 403, issue: wrongCode };
  }
}

const plain = (said: string): string => said.replace(/[\s-]/g, '').toUpperCase();

function isSame(a: string, b: string): boolean {
  const hash = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(a), hash(b));
}

const issue = (code: string, got: string, message: string): Issue => ({
  code,
  at: 'code',
  got,
  wanted: 'the code shown at the desk',
  message,
});

const wrongCode = issue(
  'pairing/wrong-code',
  'another code',
  'This is not the code shown at the desk. Look again and type it anew.',
);
const noCode = issue(
  'pairing/no-code',
  'a code, while none is shown',
  'No code holds now: it was used, or its five minutes are over. Ask for a new one at the desk.',
);
const tooMany = (wait: number): Issue =>
  issue(
    'pairing/too-many-tries',
    `more than ${TRIES_OF_ONE} wrong codes`,
    `Too many wrong codes came from here. Wait ${wait} s, then ask for a new code at the desk.`,
  );

/** A name as it can stand in a list. */
export function deviceName(said: unknown): Outcome<string> {
  const name = typeof said === 'string' ? said.replace(/\p{C}/gu, ' ').trim() : '';
  if (name !== '' && name.length <= 60) return ok(name);
  return failed({
    code: 'pairing/name',
    at: 'name',
    got: name === '' ? 'nothing' : `${name.length} characters`,
    wanted: 'a name of 1 to 60 characters',
    message: 'The device needs a name of 1 to 60 characters, such as "bench tablet". Give it one.',
  });
}
