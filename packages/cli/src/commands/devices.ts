import { failed, type Outcome, ok } from '@fettle/core';
import { type Context, dataPath } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { table } from '../words/table.ts';

export const registerDevices: Register = (program, run) => {
  const devices = program
    .command('devices')
    .description('the phones and tablets that may come in from the network (fettle serve --lan)')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle devices\n  fettle devices pair\n  fettle devices revoke "bench tablet"',
    )
    .action(() => run(listed));
  devices
    .command('pair')
    .description('a new code, for one device within five minutes')
    .action(() => run(codeMade));
  devices
    .command('revoke <device>')
    .description('let a device in no more, by its id or name')
    .action((device: string) => run((context) => revoked(context, device)));
};

async function listed({ io, common }: Context): Promise<Outcome<Reply>> {
  const { pairedDevices } = await import('@fettle/server');
  const devices = pairedDevices(dataPath(common, io));
  if (!devices.ok) return devices;
  const rows = devices.value.map(({ id, name, paired }) => [name, id, `paired ${paired.slice(0, 10)}`]);
  return ok({
    json: devices.value,
    text:
      rows.length > 0 ? table(rows).join('\n') : 'No device is paired. "fettle serve --lan" lets devices in.',
  });
}

async function revoked({ io, common }: Context, named: string): Promise<Outcome<Reply>> {
  const { deviceRevoked } = await import('@fettle/server');
  const device = await deviceRevoked(dataPath(common, io), named);
  if (!device.ok) return device;
  const { id, name } = device.value;
  return ok({
    json: { revoked: id },
    text: `${name} (${id}) is let in no more. What it has on itself stays there; what it wrote stays in the book.`,
  });
}

async function codeMade({ io, common }: Context): Promise<Outcome<Reply>> {
  const { called, runningServer } = await import('@fettle/server');
  const path = dataPath(common, io);
  const running = await runningServer(path);
  if (!running)
    return failed({
      code: 'server/not-running',
      at: path,
      got: 'no server on this data directory',
      wanted: 'a server that lets devices in',
      message: 'No bench is open here, so no code can be made. Open it with "fettle serve --lan".',
    });
  const answer = await called(running, 'POST', 'api/pairing');
  if (!answer.ok) return answer;
  const code = (await answer.value?.json()) as { code: string; expires: string };
  return ok({ json: code, text: `Pairing code: ${code.code}, for one device within five minutes.` });
}
