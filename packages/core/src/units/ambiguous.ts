import type { QuantityKind } from './kinds.ts';

/** Writings that two readers take for two different units: the program asks. */
export const AMBIGUOUS: Partial<Record<QuantityKind, Readonly<Record<string, readonly string[]>>>> = {
  length: { tenth: ['mm', 'thou'], tenths: ['mm', 'thou'] },
  volume: {
    gal: ['US gal', 'imp gal'],
    gallon: ['US gal', 'imp gal'],
    gallons: ['US gal', 'imp gal'],
    qt: ['US qt', 'imp qt'],
    quart: ['US qt', 'imp qt'],
    quarts: ['US qt', 'imp qt'],
    pt: ['US pt', 'imp pt'],
    pint: ['US pt', 'imp pt'],
    pints: ['US pt', 'imp pt'],
    'fl oz': ['US fl oz', 'imp fl oz'],
    oz: ['US fl oz', 'imp fl oz'],
  },
  flow: { 'gal/min': ['US gal/min', 'imp gal/min'], gpm: ['US gal/min', 'imp gal/min'] },
  temperature: { deg: ['degC', 'degF'], degree: ['degC', 'degF'], degrees: ['degC', 'degF'] },
  force: { lb: ['lbf'], lbs: ['lbf'], pound: ['lbf'], pounds: ['lbf'], oz: ['ozf'], kg: ['kgf'], g: ['gf'] },
  mass: { lbf: ['lb'], kgf: ['kg'] },
  power: { PS: ['metric hp', 'hp'], cv: ['metric hp', 'hp'], CV: ['metric hp', 'hp'] },
};
