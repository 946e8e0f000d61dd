// A helper lives with the idea it serves: a file that is named for nothing collects everything.
const NAMED_FOR_NOTHING = /^(utils?|helpers?|misc)(\.|$)/i;

export function nameFaults(house) {
  return house.files
    .filter(
      (path) => path.startsWith('packages/') && path.split('/').some((part) => NAMED_FOR_NOTHING.test(part)),
    )
    .map((path) => `${path}:1 is named for nothing; name it for the idea it holds`);
}
