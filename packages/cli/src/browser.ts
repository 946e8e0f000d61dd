import { spawn } from 'node:child_process';

/** How each platform is told to open an address; any other does as the last. */
const OPENERS: Readonly<Record<string, readonly [string, ...string[]]>> = {
  darwin: ['open'],
  // "start" is a word of the shell; its first quoted argument would be a window's title.
  win32: ['cmd', '/c', 'start', ''],
  linux: ['xdg-open'],
};

/** Opens an address in the person's browser, if there is one; the address was printed in any case. */
export function browserOpened(address: string, platform: string = process.platform): void {
  const [command, ...words] = OPENERS[platform] ?? OPENERS.linux!;
  const child = spawn(command, [...words, address], { detached: true, stdio: 'ignore' });
  child.once('error', () => {});
  child.unref();
}
