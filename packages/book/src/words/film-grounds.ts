/** What the figures of the films rest on, a sentence or two each. */
export const FILM_GROUNDS: readonly string[] = [
  'Temperature: the sump’s, and half of what the oil gains on its way through. Eccentricity from the mean load, friction and side flow by the film solved over the bearing’s own length, each land by itself; heat carried by the oil that the circuit feeds the bearing and, in hole-fed ones, by what the journal draws round as well (ISO 7902).',
  'Least film: the journal’s path over the cycle by the mobility of a land of that length, solved here and tabled, at that film temperature. No band is given: the model is coarser than any reading.',
  'These figures compare bearings and clearances of one engine. The maker’s clearances outrank them.',
];
