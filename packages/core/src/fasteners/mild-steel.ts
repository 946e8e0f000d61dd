import { type Pascal, pascal } from '../units/si.ts';

/** Tensile and yield strength [MPa]: what an unmarked stud or a home-made bolt is likely to be. */
const MILD_STEELS: Readonly<Record<string, readonly [number, number]>> = {
  'AISI 1010 hot rolled': [320, 180],
  'AISI 1010 cold drawn': [370, 300],
  'AISI 1015 hot rolled': [340, 190],
  'AISI 1015 cold drawn': [390, 320],
  'AISI 1018 hot rolled': [400, 220],
  'AISI 1018 cold drawn': [440, 370],
  'AISI 1020 hot rolled': [380, 210],
  'AISI 1020 cold drawn': [470, 390],
};

/**
 * Estimated least strengths of a mild steel bar; nothing for one that is not listed.
 *
 * @source shigley-fasteners
 */
export function mildSteel(name: string): { readonly tensile: Pascal; readonly yield: Pascal } | undefined {
  const row = MILD_STEELS[name];
  return row && { tensile: pascal(row[0] * 1e6), yield: pascal(row[1] * 1e6) };
}
