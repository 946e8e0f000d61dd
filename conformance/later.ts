/** Cases kept with their topic but not answered yet, by id prefix, each with its reason. */
export const LATER: Readonly<Record<string, string>> = {
  'jb.ocvirk.vs':
    'compares the short bearing with the finite solution, which comes with the oil system in full',
  'dens.rhoc':
    'heat capacity belongs to the heat balance of the films, which comes with the oil system in full',
  'spr-service-':
    'a service limit stands on the spec sheet and is judged like any other; nothing is computed',
};
