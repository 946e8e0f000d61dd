import { processIo } from './io.ts';
import { execute } from './program.ts';
import { refused } from './reply.ts';

/** The `fettle` command. @returns the exit status */
export async function main(argv: readonly string[], io = processIo()): Promise<number> {
  try {
    return await execute(argv, io);
  } catch (error) {
    // Never a stack trace on somebody's bench, unless it is asked for; the code says that this one is ours to mend.
    if (io.env.FETTLE_TRACE && error instanceof Error) io.err(`${error.stack}\n`);
    return refused(
      io,
      [
        {
          code: 'program/fault',
          at: argv[0] ?? 'fettle',
          got: error instanceof Error ? error.message : String(error),
          wanted: 'no fault in the program',
          message: `The program is at fault: ${(error instanceof Error ? error.message : String(error)).replace(/\.$/, '')}. Nothing acknowledged is lost. Set FETTLE_TRACE=1 to see where, and report it.`,
        },
      ],
      argv.includes('--json'),
    );
  }
}
