/** What a map is of, as somebody at the bench asks for it. */
export const MAP_KINDS = ['bores', 'journals', 'faces', 'lobes', 'springs', 'valves', 'others'] as const;
export type MapKind = (typeof MAP_KINDS)[number];

/** Whole words only: a rocker is no rod. The first that is found counts, so that the bore of a guide is a valve's. */
const TOLD: readonly (readonly [MapKind, RegExp])[] = [
  ['springs', /\bsprings?\b/],
  ['valves', /\b(valves?|guides?|seats?|stems?|rockers?)\b/],
  ['lobes', /\b(lobes?|cam|camshaft|followers?|lifters?|tappets?)\b/],
  ['journals', /\b(journals?|crank|crankshaft|crankpins?)\b/],
  ['bores', /\b(bores?|cylinders?|pistons?|rings?|housings?|tunnels?)\b/],
  ['faces', /\b(faces?|deck|flatness|warp|height)\b/],
];

/** The kind a map belongs to, by the words the sheet has for it. @param words  its title, ids and axes */
export const mapKindOf = (words: string): MapKind =>
  TOLD.find(([, pattern]) => pattern.test(words.toLowerCase().replace(/[^a-z]+/g, ' ')))?.[0] ?? 'others';
