import { type Caution, FARTHEST_SOLVED, type HeatedFilm, type Orbit } from '@fettle/core';

/** As much of a bearing's film as is judged here. */
interface CautionedFilm {
  readonly element: string;
  readonly computed?: HeatedFilm;
  readonly orbit?: Orbit;
}

/** Under it a film is about as thin as the roughness of a good journal [m]. From memory, no source. */
const ROUGHNESS = 1e-6;

/** What the figures of films should not be believed in. @param loaded  whether the crank is known */
export function filmCautions(films: readonly CautionedFilm[], loaded: boolean): Caution[] {
  const names = (some: readonly CautionedFilm[]): string => some.map(({ element }) => element).join(', ');
  const beyond = films.filter(({ computed }) => computed && !computed.solved);
  const starved = films.filter(({ computed }) => computed && !computed.carried);
  const restless = films.filter(({ orbit }) => orbit && !orbit.settled);
  const thin = films.filter(({ orbit }) => orbit && orbit.leastFilm < ROUGHNESS);
  return [
    ...(loaded
      ? [
          {
            code: 'film/cyclic-minimum',
            message:
              'The least film lasts a few degrees of the crank. Film limits of the handbooks are for steady loads and do not judge it: sound engine bearings pass through about a micrometre (from memory, no source). Compare bearings and clearances with it, not with a limit.',
          },
          {
            code: 'film/rigid',
            message:
              'Journal and shell are taken as round, stiff and always full of oil; grooves and holes only count as the lengths of the lands. Real shells give way and grow a thicker film under the peak.',
          },
          {
            code: 'film/shares-of-mains',
            message:
              'Each throw rests half on each main beside it, as though the crank were cut in every main; a real crank spreads its load. Take the mains as a rough guide.',
          },
        ]
      : []),
    ...(beyond.length > 0
      ? [
          {
            code: 'film/beyond-solved',
            message: `In ${names(beyond)} the mean load pushes the journal out to an eccentricity of ${Math.max(...beyond.map(({ computed }) => computed!.eccentricity)).toFixed(3)}. Films were solved to ${FARTHEST_SOLVED}; from there friction and film are carried on as they went, a guess.`,
          },
        ]
      : []),
    {
      code: 'film/heat-by-oil-alone',
      message:
        'All heat of friction leaves with the oil, at 1.8e6 J/(m³·K); crank and block carry some off, so the films come out warm. Other handbooks print 1.5e6, which would warm them a fifth more.',
    },
    ...(thin.length > 0
      ? [
          {
            code: 'film/as-thin-as-roughness',
            message: `In ${names(thin)} the least film is under about a micrometre, the roughness of a good journal: by this model surfaces may touch there.`,
          },
        ]
      : []),
    ...(starved.length > 0
      ? [
          {
            code: 'film/heat-not-carried',
            message: `The oil that flows through ${names(starved)} does not carry off the heat of its friction; the temperature stands at the greatest that is reckoned with.`,
          },
        ]
      : []),
    ...(restless.length > 0
      ? [
          {
            code: 'film/path-not-settled',
            message: `The journal’s path in ${names(restless)} does not come back to itself within the cycles reckoned; its least film is that of the last one.`,
          },
        ]
      : []),
  ];
}
