// The names a doc comment explains must be names the function below it takes.

/** What stands in the first parentheses after `from`, however nested. */
function parametersAfter(text, from) {
  const open = text.indexOf('(', from);
  if (open < 0) return '';
  let depth = 0;
  for (let at = open; at < text.length; at++) {
    if ('([{'.includes(text[at])) depth++;
    if (')]}'.includes(text[at])) depth--;
    if (depth === 0) return text.slice(open + 1, at);
  }
  return text.slice(open + 1);
}

const isWordIn = (name, text) =>
  new RegExp(`(?<![\\p{ID_Continue}$])${name}(?![\\p{ID_Continue}$])`, 'u').test(text);

export function paramNameFaults(house) {
  const faults = [];
  for (const path of house.files.filter((one) => /^packages\/[^/]+\/src\/.*\.tsx?$/.test(one))) {
    const text = house.text(path);
    for (const comment of text.matchAll(/\/\*\*(?:(?!\*\/)[\s\S])*\*\//g)) {
      const parameters = parametersAfter(text, comment.index + comment[0].length);
      for (const param of comment[0].matchAll(/@param\s+([\p{ID_Start}_$][\p{ID_Continue}$]*)/gu)) {
        if (isWordIn(param[1], parameters)) continue;
        const line = text.slice(0, comment.index + param.index).split('\n').length;
        faults.push(`${path}:${line} explains ${param[1]}, which the function below does not take`);
      }
    }
  }
  return faults;
}
