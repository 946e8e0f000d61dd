/** Cases kept with their topic but not answered yet, by id prefix, each with its reason. */
export const LATER: Readonly<Record<string, string>> = {
  'jb.rb.blend':
    'mixes table rows to get at another length; the program solves the film of any length itself',
  'jb.hlim': 'a guide value for steady load, known from memory only, by which no engine bearing is judged',
  'dens.rhoc':
    'heat capacity belongs to the heat balance of the films, which comes with the oil system in full',
  'stiff-': 'stiffness of bolts and of what they clamp comes with the tightening of a whole flange',
  'ord-': 'orders of tightening come with the tightening of a whole flange',
  'wink-': 'a rail on its gasket comes with the tightening of a whole flange',
  'int-': 'how one bolt slackens its neighbours comes with the tightening of a whole flange',
  'gask-': 'gasket sheets and sealants come with the tightening of a whole flange',
  'critical-': 'air through a small hole comes with the leak test of a cylinder',
  'api520-': 'air through a small hole comes with the leak test of a cylinder',
  'cengel-': 'air through a small hole comes with the leak test of a cylinder',
  'leakdown-': 'the leak test of a cylinder, under pressure, comes with its caution and its rig',
  'iso6358-': 'air through a small hole comes with the leak test of a cylinder',
  'spr-service-':
    'a service limit stands on the spec sheet and is judged like any other; nothing is computed',
};
