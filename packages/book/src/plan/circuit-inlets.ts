import type { FromCharacteristic, SpecSheet } from '../sheet/sheet.ts';

/** A parameter of the circuit that a characteristic feeds. */
export interface CircuitInlet {
  /** `element.parameter`, as the network names it. */
  readonly name: string;
  readonly from: FromCharacteristic;
}

export function circuitInlets(sheet: SpecSheet | undefined): CircuitInlet[] {
  return (sheet?.oil?.circuit?.elements ?? []).flatMap((element) =>
    Object.entries(element).flatMap(([key, value]) =>
      isFrom(value) ? [{ name: `${String(element.id)}.${key}`, from: value }] : [],
    ),
  );
}

const isFrom = (value: unknown): value is FromCharacteristic =>
  typeof value === 'object' && value !== null && 'from' in value && 'nominal' in value;
