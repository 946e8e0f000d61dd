import { type Calculator, type Field, kindsOf, type QuantityKind, writtenNumber } from '@fettle/core';
import { type Faults, listed } from './fault.ts';
import { axisValues } from './places.ts';
import type { Linear, Relation } from './relation.ts';
import type { Characteristic, SpecSheet } from './sheet.ts';

type Path = readonly (string | number)[];
type Reference = Extract<Relation, { characteristic: string }>;
type Calculation = Extract<Relation, { calculator: unknown }>['calculator'];

/** What a relation gives: the kind of its value, and for each axis left open the values it has. */
interface Given {
  /** Undefined where it cannot be told, or is at fault already. */
  readonly kind: QuantityKind | undefined;
  readonly axes: ReadonlyMap<string, readonly string[]>;
}

const NOTHING: Given = { kind: undefined, axes: new Map() };

/** Where both sides have an axis, only the values that both have are left. */
function joined(all: readonly Given[]): Map<string, readonly string[]> {
  const axes = new Map<string, readonly string[]>();
  for (const given of all)
    for (const [axis, values] of given.axes) {
      const before = axes.get(axis);
      axes.set(axis, before ? before.filter((value) => values.includes(value)) : values);
    }
  return axes;
}

/** Reads the relations of one characteristic against the sheet and the calculator catalogue. */
class RelationReader {
  readonly #sheet: SpecSheet;
  readonly #byId: ReadonlyMap<string, Characteristic>;
  readonly #calculators: ReadonlyMap<string, Calculator>;
  readonly #subject: string;
  readonly #faults: Faults;

  constructor(
    sheet: SpecSheet,
    byId: ReadonlyMap<string, Characteristic>,
    calculators: ReadonlyMap<string, Calculator>,
    subject: string,
    faults: Faults,
  ) {
    this.#sheet = sheet;
    this.#byId = byId;
    this.#calculators = calculators;
    this.#subject = subject;
    this.#faults = faults;
  }

  #fault(code: string, path: Path, got: string, wanted: string, message: string): Given {
    this.#faults.add(code, path, got, wanted, `${this.#subject}: ${message}`);
    return NOTHING;
  }

  given(relation: Relation, path: Path): Given {
    if (typeof relation === 'string') return this.#characteristic(relation, path);
    if ('characteristic' in relation) return this.#reference(relation, path);
    if ('linear' in relation) return this.#linear(relation.linear, [...path, 'linear']);
    if ('reduce' in relation) {
      const inner = this.given(relation.reduce.of, [...path, 'reduce', 'of']);
      if (inner === NOTHING) return NOTHING;
      const axes = new Map(inner.axes);
      for (const [i, axis] of relation.reduce.over.entries())
        if (!axes.delete(axis))
          this.#fault(
            'unknown-axis',
            [...path, 'reduce', 'over', i],
            axis,
            listed(inner.axes.keys()),
            `the relation reduces over the axis "${axis}", which its input does not have (${listed(inner.axes.keys())}). Name an axis of the input.`,
          );
      return { kind: inner.kind, axes };
    }
    if ('ratio' in relation) {
      const of = this.#linear(relation.ratio.of, [...path, 'ratio', 'of']);
      const by = this.#linear(relation.ratio.by, [...path, 'ratio', 'by']);
      const kind =
        of.kind !== undefined && of.kind === by.kind ? 'ratio' : by.kind === 'ratio' ? of.kind : undefined;
      return { kind, axes: joined([of, by]) };
    }
    return this.#calculator(relation.calculator, [...path, 'calculator']);
  }

  #characteristic(id: string, path: Path): Given {
    const c = this.#byId.get(id);
    if (!c)
      return this.#fault(
        'unknown-characteristic',
        path,
        id,
        'the id of a characteristic of this sheet',
        `it rests on "${id}", which is no characteristic of the sheet. Correct the id, or add the characteristic.`,
      );
    if (c.kind === 'seen')
      return this.#fault(
        'not-a-number',
        path,
        id,
        'a characteristic that is measured',
        `it rests on ${id}, which is only looked at and gives no number. Rest it on something measured.`,
      );
    return { kind: c.kind, axes: new Map(c.places.map((axis) => [axis, axisValues(this.#sheet, c, axis)])) };
  }

  #reference(reference: Reference, path: Path): Given {
    const { characteristic, at = {}, rename = {} } = reference;
    const whole = this.#characteristic(characteristic, [...path, 'characteristic']);
    if (whole === NOTHING) return NOTHING;
    const axes = new Map(whole.axes);
    for (const [axis, value] of Object.entries(at)) {
      const values = axes.get(axis);
      if (!values)
        this.#fault(
          'unknown-axis',
          [...path, 'at', axis],
          axis,
          listed(whole.axes.keys()),
          `${characteristic} has no axis "${axis}" to fix. Its axes: ${listed(whole.axes.keys())}.`,
        );
      else if (!values.includes(value))
        this.#fault(
          'unknown-value',
          [...path, 'at', axis],
          value,
          listed(values),
          `${characteristic} has no ${axis} "${value}". Its values: ${listed(values)}.`,
        );
      axes.delete(axis);
    }
    for (const axis of Object.keys(rename))
      if (!axes.has(axis))
        this.#fault(
          'unknown-axis',
          [...path, 'rename', axis],
          axis,
          listed(axes.keys()),
          `${characteristic} has no open axis "${axis}" to rename. Its open axes: ${listed(axes.keys())}.`,
        );
    const renamed = new Map<string, readonly string[]>();
    for (const [axis, values] of axes) {
      const to = Object.hasOwn(rename, axis) ? (rename[axis] ?? axis) : axis;
      if (renamed.has(to))
        this.#fault(
          'axis-twice',
          [...path, 'rename'],
          to,
          'two different axes',
          `after renaming, ${characteristic} has the axis ${to} twice. Choose another name.`,
        );
      renamed.set(to, values);
    }
    return { kind: whole.kind, axes: renamed };
  }

  #linear(linear: Linear, path: Path): Given {
    const terms = linear.terms.map((term, i) => this.given(term.of, [...path, 'terms', i, 'of']));
    const axes = joined(terms);
    if (terms.length === 0) return { kind: this.#constantKind(linear.constant, path), axes };
    const kind = terms.find((term) => term.kind !== undefined)?.kind;
    for (const [i, term] of terms.entries())
      if (term.kind !== undefined && term.kind !== kind)
        this.#fault(
          'kinds-mixed',
          [...path, 'terms', i],
          term.kind,
          kind ?? '',
          `a ${term.kind} cannot be added to a ${kind}. Correct the term.`,
        );
    if (kind !== undefined)
      this.#faults.quantity(linear.constant, kind, [...path, 'constant'], `${this.#subject}, constant`);
    return { kind, axes };
  }

  /** A constant alone says its kind by its unit. */
  #constantKind(constant: string | undefined, path: Path): QuantityKind | undefined {
    if (constant === undefined) {
      this.#fault(
        'linear-empty',
        path,
        'neither terms nor a constant',
        'a term or a constant',
        'a linear form is empty. Give it a term or a constant.',
      );
      return undefined;
    }
    const written = writtenNumber(constant);
    const kinds = !written.ok || written.value.rest === '' ? ['ratio' as const] : kindsOf(written.value.rest);
    const kind = kinds[0] ?? 'ratio';
    this.#faults.quantity(constant, kind, [...path, 'constant'], `${this.#subject}, constant`);
    return kinds.length === 1 ? kind : undefined;
  }

  #calculator({ name, inputs, output }: Calculation, path: Path): Given {
    const givens = new Map<string, Given>();
    for (const [key, input] of Object.entries(inputs))
      if ('of' in input) {
        const at = [...path, 'inputs', key];
        const given = this.given(input.of, [...at, 'of']);
        givens.set(
          key,
          input.over === undefined ? given : this.#overSpots(given, input.over, [...at, 'over']),
        );
      }
    const axes = joined([...givens.values()]);
    const calculator = this.#calculators.get(name);
    if (!calculator) {
      this.#fault(
        'unknown-calculator',
        [...path, 'name'],
        name,
        listed(this.#calculators.keys()),
        `there is no calculator "${name}". \`fettle calc\` lists their names.`,
      );
      return { kind: undefined, axes };
    }
    for (const [key, input] of Object.entries(inputs)) {
      const at = [...path, 'inputs', key];
      const field = Object.hasOwn(calculator.input, key) ? calculator.input[key] : undefined;
      if (!field)
        this.#fault(
          'unknown-input',
          at,
          key,
          listed(Object.keys(calculator.input)),
          `${name} takes no "${key}". It takes ${listed(Object.keys(calculator.input))}.`,
        );
      else if ('is' in input) this.#stated(field, input.is, [...at, 'is'], `${name}, ${key}`);
      else if (input.over !== undefined) this.#points(calculator, key, output, at);
      else this.#derived(field, givens.get(key) ?? NOTHING, at, `${name}, ${key}`);
    }
    for (const [key, field] of Object.entries(calculator.input))
      if (field.required && !Object.hasOwn(inputs, key))
        this.#fault(
          'missing-input',
          [...path, 'inputs'],
          'nothing',
          key,
          `${name} cannot do without "${key}": ${field.doc}. Give it.`,
        );
    const result = Object.hasOwn(calculator.output, output) ? calculator.output[output] : undefined;
    if (!result)
      this.#fault(
        'unknown-output',
        [...path, 'output'],
        output,
        listed(Object.keys(calculator.output)),
        `${name} gives no "${output}". It gives ${listed(Object.keys(calculator.output))}.`,
      );
    else if (result.kind === 'value' || result.each !== undefined)
      this.#fault(
        'not-a-number',
        [...path, 'output'],
        output,
        'an output that is a quantity',
        `"${output}" of ${name} is no single quantity and cannot be judged. Choose another output.`,
      );
    // An output alike to what goes in has no kind of its own.
    return {
      kind: result && result.kind !== 'value' && result.kind !== 'alike' ? result.kind : undefined,
      axes,
    };
  }

  /** Along an axis every value of which has a spot, the axis is used up. */
  #overSpots(given: Given, over: string, path: Path): Given {
    if (given === NOTHING) return NOTHING;
    const axes = new Map(given.axes);
    const values = axes.get(over);
    if (!values)
      return this.#fault(
        'unknown-axis',
        path,
        over,
        listed(axes.keys()),
        `the points are taken over the axis "${over}", which their input does not have (${listed(axes.keys())}). Name an axis of the input.`,
      );
    const lacking = values.filter((value) => !Object.hasOwn(this.#sheet.spots?.[over] ?? {}, value));
    if (lacking.length > 0)
      this.#fault(
        'spot-missing',
        path,
        lacking.join(', '),
        `a spot for every ${over}`,
        `the points are taken over the axis "${over}", but the sheet does not say where ${listed(lacking)} lies. Add it to spots: along and across, from any corner.`,
      );
    axes.delete(over);
    return { kind: given.kind, axes };
  }

  /** Only a calculator that takes nothing but points, and says how its answer moves with each, can be given them. */
  #points(calculator: Calculator, key: string, output: string, path: Path): void {
    const field = calculator.input[key];
    const alone = Object.keys(calculator.input).length === 1;
    if (
      field?.type !== 'structure' ||
      !alone ||
      !Object.hasOwn(calculator.output, 'weights') ||
      output !== 'flatness'
    )
      this.#fault(
        'input-not-points',
        path,
        `${calculator.name}, ${output}`,
        'plane-form, flatness',
        `${calculator.name} does not work out ${output} from readings all over a face. Use the flatness of plane-form, or leave "over" out.`,
      );
  }

  /** An input written down in the sheet. */
  #stated(field: Field, text: string, path: Path, what: string): void {
    if (field.type === 'quantity') this.#faults.quantity(text, field.kind, path, `${this.#subject}, ${what}`);
    else if (field.type === 'choice' && !field.choices.includes(text))
      this.#fault(
        'unknown-choice',
        path,
        text,
        listed(field.choices),
        `${what} is one of ${listed(field.choices)}.`,
      );
    else if (field.type === 'quantities' || field.type === 'structure')
      this.#fault(
        'input-not-single',
        path,
        text,
        'an input that is one quantity or word',
        `${what} is a list or a structure, which a relation cannot give. Use another calculator.`,
      );
  }

  /** An input that follows from characteristics. */
  #derived(field: Field, given: Given, path: Path, what: string): void {
    if (field.type !== 'quantity')
      this.#fault(
        'input-not-single',
        path,
        'a measured quantity',
        field.type,
        `${what} is no single quantity, so no characteristic can give it.`,
      );
    else if (given.kind !== undefined && given.kind !== field.kind)
      this.#fault(
        'kinds-mixed',
        path,
        given.kind,
        field.kind,
        `${what} is a ${field.kind}, but what it is given is a ${given.kind}. Correct the input.`,
      );
  }
}

/** What one characteristic derives from others: its relation, and what its readings are added to. */
export function relationFaults(
  sheet: SpecSheet,
  c: Characteristic,
  index: number,
  byId: ReadonlyMap<string, Characteristic>,
  calculators: ReadonlyMap<string, Calculator>,
  faults: Faults,
): void {
  const reader = new RelationReader(sheet, byId, calculators, c.id, faults);
  const path: Path = ['characteristics', index];
  const parts: { of: Relation; at: Path }[] =
    c.relation === undefined ? [] : [{ of: c.relation, at: [...path, 'relation'] }];
  for (const [measurand, { plus = [] }] of Object.entries(c.read_as ?? {})) {
    if (measurand === c.measurand)
      faults.add(
        'measurand-twice',
        [...path, 'read_as', measurand],
        measurand,
        'another measurand',
        `${c.id} says how to read it as "${measurand}", which is its own measurand. Remove that, or rename one.`,
      );
    for (const [i, { of }] of plus.entries())
      parts.push({ of, at: [...path, 'read_as', measurand, 'plus', i, 'of'] });
  }
  for (const { of, at } of parts) {
    const given = reader.given(of, at);
    if (given.kind !== undefined && given.kind !== c.kind)
      faults.add(
        'kinds-mixed',
        at,
        given.kind,
        c.kind,
        `${c.id} is a ${c.kind}, but what it follows from gives a ${given.kind}. Correct the kind or the relation.`,
      );
    for (const [axis, values] of given.axes) {
      if (!c.places.includes(axis)) {
        faults.add(
          'axis-left-over',
          at,
          axis,
          listed(c.places),
          `${c.id} follows from values for each ${axis}, but ${axis} is none of its places (${listed(c.places)}). List it in places, fix it by "at", or reduce over it.`,
        );
        continue;
      }
      const missing = axisValues(sheet, c, axis).filter((value) => !values.includes(value));
      if (missing.length > 0)
        faults.add(
          'place-without-input',
          at,
          `${axis} ${listed(missing)}`,
          listed(values),
          `${c.id} has the ${axis} ${listed(missing)}, for which what it follows from has no value (only ${listed(values)}). Restrict it by "only", or complete the inputs.`,
        );
    }
  }
}
