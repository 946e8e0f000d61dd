import { type Metre, type Pascal, pascal } from '../units/si.ts';

/** Over and up to [mm]; proof stress of class 8, 10 and 12 [MPa], regular nuts with coarse threads. */
const ISO_NUTS: readonly (readonly [number, number, Readonly<Record<string, number>>])[] = [
  [4, 7, { '8': 855, '10': 1040, '12': 1150 }],
  [7, 10, { '8': 870, '10': 1040, '12': 1160 }],
  [10, 16, { '8': 880, '10': 1050, '12': 1190 }],
];

/** Coarse threads, 1/4 to 1 in [ksi]; fine ones carry other figures. */
const SAE_NUTS: Readonly<Record<string, number>> = { '2': 90, '5': 120, '8': 150 };
const KSI = 4448.2216152605 / 0.0254 ** 2;

/**
 * Proof stress of a nut: class 8, 10 or 12 over 4 up to 16 mm; nothing outside.
 *
 * @source iso-898-2
 */
export function isoNutProof(propertyClass: string, diameter: Metre): Pascal | undefined {
  const mm = diameter * 1000;
  const found = ISO_NUTS.find(([over, to]) => mm > over && mm <= to)?.[2][propertyClass];
  return found === undefined ? undefined : pascal(found * 1e6);
}

/**
 * Proof stress of an inch nut with coarse thread, grade 2, 5 or 8, 1/4 to 1 in.
 *
 * @source sae-j995
 */
export function saeNutProof(grade: string): Pascal | undefined {
  const found = SAE_NUTS[grade];
  return found === undefined ? undefined : pascal(found * KSI);
}
