/** Cases kept with their topic but not answered yet, by id prefix, each with its reason. */
export const LATER: Readonly<Record<string, string>> = {
  'jb.rb.blend':
    'mixes table rows to get at another length; the program solves the film of any length itself',
  'jb.hlim': 'a guide value for steady load, known from memory only, by which no engine bearing is judged',
  'dens.rhoc':
    'heat capacity belongs to the heat balance of the films, which comes with the oil system in full',
  'spr-service-':
    'a service limit stands on the spec sheet and is judged like any other; nothing is computed',
};
