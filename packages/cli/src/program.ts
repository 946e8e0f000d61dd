import { Command, CommanderError } from 'commander';
import { COMMANDS } from './commands/index.ts';
import { type Common, type Context, contextAt, contextOf } from './context.ts';
import type { Io } from './io.ts';
import type { Handler } from './registration.ts';
import { BAD_USE, printed, refused } from './reply.ts';

const VERSION = '0.1.0';

const HELP_WIDTH = 108;

const DESCRIPTION = `From readings to the right to close it up: verdicts, predicted oil pressure, gates, and a book that proves it.

Quantities carry their unit: 2.4982in, 2thou, "5/16 in", 7.5psi, 600rpm, 93degC.
JOB is a job's id, the beginning of it, or a word of its title.`;

const EXAMPLES = `
Examples:
  fettle new --demo linnet                    a worked job to look round in
  fettle new --from sheet.csv --title "My engine"
  fettle check linnet                         verdicts and gates; status 1 while anything is open
  fettle read linnet crank.main-journal 2.4982in --at 1/front/0 --with micrometer
  fettle why linnet pump.end-clearance        the working behind a figure
  fettle oil linnet                           predicted pressure and what each repair would give
  fettle calc gear-pump --schema              any single calculation, alone`;

/**
 * Reads one command line and does it.
 *
 * @param given  a context for lines that come from a file; otherwise one is made from the options
 * @returns      the exit status: 0 all well, 1 something out, undecided or missing, 2 bad use
 */
export async function execute(argv: readonly string[], io: Io, given?: Context): Promise<number> {
  let status = 0;
  const program = new Command('fettle')
    .description(DESCRIPTION)
    .version(VERSION)
    .option('--data <directory>', 'where jobs are kept (or FETTLE_DATA)')
    .option('--who <name>', 'who writes (or FETTLE_WHO)')
    .option('--json', 'answer for programs')
    .addHelpText('after', EXAMPLES)
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: () => {}, getOutHelpWidth: () => HELP_WIDTH });
  const run = async (handler: Handler): Promise<void> => {
    const common = program.opts<Common>();
    const context = given ?? contextOf(io, common, typed);
    try {
      status = printed(io, await handler(context), common.json === true);
    } finally {
      if (!given) await context.close();
    }
  };
  for (const register of COMMANDS) register(program, run);
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return status;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    if (error.exitCode === 0) return 0;
    // A bare "fettle" is a question, not a mistake, but nothing was done either.
    if (error.code === 'commander.help') {
      io.err(program.helpInformation());
      return BAD_USE;
    }
    return refused(
      io,
      [
        {
          code: 'command/bad-use',
          at: argv[0] ?? 'fettle',
          got: argv.join(' '),
          wanted: 'a command as "fettle --help" prints it',
          message: badUseWords(program, error.message, argv),
        },
      ],
      argv.includes('--json'),
    );
  }
}

/** What was wrong with the words, as a sentence, and where the right ones are printed. */
function badUseWords(program: Command, said: string, argv: readonly string[]): string {
  const fault = said
    .replace(/^error: /, '')
    .replaceAll(/\s*\n\s*/g, ' ')
    .replace(/\.$/, '');
  const [command] = argv.filter((word) => program.commands.some((known) => known.name() === word));
  const negative = /^unknown option '-[\d.]/.test(fault)
    ? ' A negative number goes last, behind a lone "--": fettle read JOB NAME --with mic -- -0.002in.'
    : '';
  return `${fault[0]?.toUpperCase()}${fault.slice(1)}.${negative} See "fettle ${command === undefined ? '' : `${command} `}--help".`;
}

/** A command of a file, typed at a job that is open already. */
const typed: Context['typed'] = (words, io, bench, who) =>
  execute(words, io, contextAt(io, bench, who, typed));
