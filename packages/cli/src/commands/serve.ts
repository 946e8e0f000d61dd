import { failed, type Outcome, ok } from '@fettle/core';
import type { Serving } from '@fettle/server';
import { browserOpened } from '../browser.ts';
import { type Context, dataPath } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';

/** Where the bench is when nobody says otherwise; another port is taken when this one is not free. */
const USUAL_PORT = 4173;

interface Said {
  readonly port?: string;
  readonly lan?: boolean;
  readonly browser: boolean;
  readonly orOpen?: boolean;
}

export const registerServe: Register = (program, run) => {
  program
    .command('serve')
    .description('the bench page, on this machine; with --lan for paired phones and tablets too')
    .option('--port <port>', `where it listens (or PORT); ${USUAL_PORT} unless taken`)
    .option('--lan', 'let in devices of the network that type the code shown here')
    .option('--no-browser', 'open no browser (or FETTLE_NO_BROWSER=1)')
    .option('--or-open', 'where a server holds the data already, open that one and end')
    .addHelpText('after', '\nExamples:\n  fettle serve\n  fettle serve --lan --port 8080')
    .action((said: Said) => run((context) => served(context, said)));
};

async function served(context: Context, said: Said): Promise<Outcome<Reply>> {
  const { io, common } = context;
  const port = portSaid(said.port ?? io.env.PORT);
  if (!port.ok) return port;
  // Loaded here: no other command should wait for it.
  const { runningServer, serve } = await import('@fettle/server');
  const opens = said.browser && io.env.FETTLE_NO_BROWSER !== '1';
  const running = said.orOpen ? await runningServer(dataPath(common, io)) : undefined;
  if (running) {
    if (opens) browserOpened(running.address);
    return ok({
      json: { address: running.address, already_running: true },
      text: `The bench is open already at ${running.address}`,
    });
  }
  const options = {
    directory: dataPath(common, io),
    lan: said.lan === true,
    faulted: (error: unknown) =>
      io.err(`The server is at fault: ${error instanceof Error ? error.message : String(error)}\n`),
  };
  let serving = await serve({ ...options, port: port.value ?? USUAL_PORT });
  if (!serving.ok && port.value === undefined && serving.issues[0]?.code === 'server/port-in-use')
    serving = await serve({ ...options, port: 0 });
  if (!serving.ok) return serving;
  // Listened for before anything is said: whoever reads the address may end it at once.
  const over = interrupted();
  announced(context, serving.value, options.lan);
  if (opens) browserOpened(serving.value.address);
  await over;
  await serving.value.close();
  return ok({ json: { closed: true }, text: 'The bench is closed. Everything acknowledged is kept.' });
}

function announced({ io, common }: Context, serving: Serving, lan: boolean): void {
  const { address, addresses } = serving;
  const pairing = lan ? serving.newPairingCode() : undefined;
  if (common.json) {
    io.out(`${JSON.stringify({ address, addresses, ...(pairing && { code: pairing.code }) })}\n`);
    return;
  }
  io.out(`The bench is open at ${address}\n`);
  if (pairing) {
    const where = addresses.length > 0 ? addresses.join(' or ') : 'no network address of this machine';
    io.out(`Other devices: ${where}\n`);
    io.out(`Pairing code: ${pairing.code}, for one device within five minutes.\n`);
    io.out('The next code: "fettle devices pair". Who is paired: "fettle devices".\n');
    io.out('What passes over the network is not encrypted: open it only where you trust who listens.\n');
  }
  io.out('Ctrl-C closes it.\n');
}

/** The port as said; undefined when nobody said one. */
function portSaid(said: string | undefined): Outcome<number | undefined> {
  if (said === undefined || said === '') return ok(undefined);
  if (/^\d{1,5}$/.test(said) && Number(said) <= 65_535) return ok(Number(said));
  return failed({
    code: 'port/unreadable',
    at: '--port',
    got: said,
    wanted: 'a whole number from 0 to 65535',
    message: `"${said}" is no port. Give a whole number from 0 to 65535 (--port or PORT); 0 takes any that is free.`,
  });
}

/** Until somebody ends the program. Said twice, it ends at once. */
function interrupted(): Promise<void> {
  return new Promise((resolve) => {
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
    const heard = (): void => {
      for (const signal of signals) process.off(signal, heard);
      resolve();
    };
    for (const signal of signals) process.once(signal, heard);
  });
}
