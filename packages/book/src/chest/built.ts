import { failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { Body, BudgetLine } from '../ledger/bodies.ts';
import { amountOf, amountText } from './amount.ts';
import { workedBudget } from './budget-of.ts';
import type { Given, InstrumentType, Setting } from './instrument-type.ts';
import { INSTRUMENT_TYPES } from './instrument-types.ts';
import { micrometerLines } from './length-tools.ts';
import { band } from './lines.ts';

/** What its owner says of an instrument when its uncertainty is to be built. */
export interface BuildSaid {
  readonly type: string;
  /** Said of it, by the keys of its type; what is left out is what the type usually has. */
  readonly settings: Readonly<Record<string, string>>;
  readonly setIn?: string;
  /** Which usual figures, and the unit U is told in. */
  readonly system: 'inch' | 'metric';
}

/** An uncertainty with what it was built from, as an instrument is declared with. */
export type Built = Pick<
  Body<'instrument-declared'>,
  'uncertainty' | 'trust' | 'budget' | 'settings' | 'set_in'
>;

/** The unit in which an instrument's U is told. */
const TOLD_IN: Readonly<Record<string, readonly [inch: string, metric: string]>> = {
  length: ['in', 'mm'],
  pressure: ['psi', 'bar'],
  volume: ['mL', 'mL'],
  mass: ['g', 'g'],
  angle: ['deg', 'deg'],
  temperature: ['K', 'K'],
  ratio: ['%', '%'],
};

/** The uncertainty of an instrument of a known type, built from what its owner said of it and what is usual. */
export function builtInstrument(instruments: Book['instruments'], said: BuildSaid): Outcome<Built> {
  const type = INSTRUMENT_TYPES.get(said.type);
  if (!type)
    return failed(
      issue(
        'instrument/no-uncertainty',
        'type',
        said.type,
        `U stated, or one of the types ${[...INSTRUMENT_TYPES.keys()].join(', ')}`,
        `There is no budget for "${said.type}". State its U, or take one of ${[...INSTRUMENT_TYPES.keys()].join(', ')}.`,
      ),
    );
  const issues = [...settingIssues(type, said.settings), ...chainIssues(instruments, type, said.setIn)];
  if (issues.length > 0) return failed(...issues);
  const settings = Object.fromEntries(
    type.settings.map(({ key, usual }) => [key, said.settings[key] ?? usual[said.system === 'inch' ? 0 : 1]]),
  );
  const lines = type.lines(given(instruments, settings, said));
  const unit = TOLD_IN[type.reads]?.[said.system === 'inch' ? 0 : 1] ?? '';
  const worked = typeof lines === 'string' ? undefined : workedBudget(lines, unit);
  if (!worked || typeof lines === 'string')
    return failed(
      issue(
        'instrument/no-budget',
        'settings',
        JSON.stringify(settings),
        'settings its tables list',
        String(lines),
      ),
    );
  const kept = Object.fromEntries(Object.entries(settings).filter(([, text]) => text !== ''));
  return ok({
    uncertainty: {
      expanded: worked.expanded,
      coverage: 2,
      common_share: Number(worked.commonShare.toFixed(4)),
    },
    trust: Object.keys(said.settings).length > 0 || said.setIn !== undefined ? 'built' : 'default',
    budget: [...lines],
    settings: kept,
    ...(said.setIn !== undefined && { set_in: said.setIn }),
  });
}

function settingIssues(type: InstrumentType, said: Readonly<Record<string, string>>): Issue[] {
  return Object.entries(said).flatMap(([key, text]): Issue[] => {
    const setting = type.settings.find((one) => one.key === key);
    if (!setting)
      return [
        issue(
          'instrument/unknown-setting',
          key,
          key,
          type.settings.map((one) => one.key).join(', '),
          `A ${type.type} has no "${key}". What may be said of it: ${type.settings.map((one) => `${one.key} (${one.label})`).join(', ')}.`,
        ),
      ];
    return readsAs(setting, text)
      ? []
      : [
          issue(
            'instrument/unreadable-setting',
            key,
            text,
            setting.choices?.join(', ') ?? `such as ${setting.usual[0]}`,
            `"${text}" cannot be the ${setting.label}. Say ${setting.choices ? `one of ${setting.choices.join(', ')}` : `it with its unit, such as ${setting.usual[0] || '0.0001 in'}`}.`,
          ),
        ];
  });
}

function readsAs({ choices, kind }: Setting, text: string): boolean {
  if (choices) return choices.includes(text);
  const amount = amountOf(text);
  return amount !== undefined && amount.kind === kind && amount.value > 0;
}

function chainIssues(
  instruments: Book['instruments'],
  type: InstrumentType,
  setIn: string | undefined,
): Issue[] {
  if (setIn === undefined) return [];
  const other = instruments.get(setIn);
  const fits = other && amountOf(other.body.uncertainty.expanded)?.kind === type.reads;
  return other && fits && type.chained !== undefined
    ? []
    : [
        issue(
          'instrument/no-such-setting-standard',
          'set_in',
          setIn,
          'a declared instrument of the same kind',
          type.chained === undefined
            ? `A ${type.type} is not set in another instrument.`
            : `"${setIn}" is no instrument declared here that reads ${type.reads}. Declare it first: ${[...instruments.keys()].join(', ') || 'none is yet'}.`,
        ),
      ];
}

function given(
  instruments: Book['instruments'],
  settings: Readonly<Record<string, string>>,
  { setIn, system }: BuildSaid,
): Given {
  const said = (key: string): string => settings[key] ?? '';
  const si = (key: string): number => amountOf(said(key))?.value ?? Number.NaN;
  const chain = (own: string): readonly BudgetLine[] | string => {
    const other = setIn === undefined ? undefined : instruments.get(setIn)?.body;
    if (other) return lent(other, own);
    const usual = INSTRUMENT_TYPES.get('micrometer')!.settings.map(
      ({ key, usual: both }) => [key, both[system === 'inch' ? 0 : 1]] as const,
    );
    const [stepSaid = '', feelSaid = ''] = ['step', 'feel'].map(
      (key) => usual.find(([one]) => one === key)?.[1],
    );
    const lines = micrometerLines(si('range'), stepSaid, feelSaid);
    return typeof lines === 'string'
      ? lines
      : lines.map((line) => ({ ...line, what: `micrometer: ${line.what}` }));
  };
  return { si, said, chain };
}

/** What comes of the instrument it is set in or read by: its common error under its name, and its own doubt once. */
function lent({ instrument, name, uncertainty }: Body<'instrument-declared'>, own: string): BudgetLine[] {
  const U = amountOf(uncertainty.expanded);
  if (!U) return [];
  const u = U.value / uncertainty.coverage;
  const part = (share: number): string => amountText(2 * u * Math.sqrt(share), U.kind, U.unit);
  const source = `U ${uncertainty.expanded} of ${name}`;
  return [
    ...(uncertainty.common_share > 0
      ? [
          band(`${name}: what all its readings share`, part(uncertainty.common_share), source, {
            share: 'common',
            of: instrument,
          }),
        ]
      : []),
    ...(uncertainty.common_share < 1 ? [band(own, part(1 - uncertainty.common_share), source)] : []),
  ];
}

/** Whether a stated U reads as one: over zero, since an instrument without any doubt would decide everything. */
export function readsAsUncertainty(text: string): boolean {
  const amount = amountOf(text);
  return amount !== undefined && amount.value > 0;
}
