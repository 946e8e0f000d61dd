// The import statements of one source file, found without a compiler: TypeScript 7 offers no interface to ask.

const WORD = /[\p{ID_Continue}$#@]/u;
const BEFORE_REGEX = new Set('return typeof case in of delete void throw new else do await yield'.split(' '));

/**
 * Words, strings and signs of a source text with their lines, comments left out. Templates come as one token,
 * with what stands inside `${}` read as code.
 */
function tokensOf(text) {
  const tokens = [];
  let line = 1;
  let at = 0;

  const push = (kind, value, from = line) => tokens.push({ kind, value, line: from });

  function pastComment() {
    const end = text[at + 1] === '/' ? text.indexOf('\n', at) : text.indexOf('*/', at + 2) + 2;
    const stop = end < 2 ? text.length : end;
    for (; at < stop; at++) if (text[at] === '\n') line++;
  }

  function pastQuoted(quote) {
    const from = at + 1;
    for (at = from; at < text.length && text[at] !== quote && text[at] !== '\n'; at++)
      if (text[at] === '\\') at++;
    push('string', text.slice(from, at));
    at++;
  }

  function pastTemplate() {
    const start = line;
    const from = ++at;
    let holes = false;
    while (at < text.length && text[at] !== '`') {
      if (text[at] === '\\') at++;
      else if (text[at] === '$' && text[at + 1] === '{') {
        holes = true;
        at += 2;
        readCode('}');
        continue;
      }
      if (text[at] === '\n') line++;
      at++;
    }
    push(holes ? 'template' : 'string', text.slice(from, at), start);
    at++;
  }

  function regexMayStart() {
    const last = tokens.at(-1);
    if (last === undefined) return true;
    if (last.kind === 'word') return BEFORE_REGEX.has(last.value);
    return last.kind === 'sign' && !')]}'.includes(last.value);
  }

  function pastRegex() {
    let inClass = false;
    for (at++; at < text.length && text[at] !== '\n' && (inClass || text[at] !== '/'); at++) {
      if (text[at] === '\\') at++;
      else if (text[at] === '[') inClass = true;
      else if (text[at] === ']') inClass = false;
    }
    at++;
    push('regex', '');
  }

  function readCode(closing) {
    let depth = 0;
    while (at < text.length) {
      const sign = text[at];
      if (sign === '\n') {
        line++;
        at++;
      } else if (sign === ' ' || sign === '\t' || sign === '\r') at++;
      else if (sign === '/' && (text[at + 1] === '/' || text[at + 1] === '*')) pastComment();
      else if (sign === "'" || sign === '"') pastQuoted(sign);
      else if (sign === '`') pastTemplate();
      else if (sign === '/' && regexMayStart()) pastRegex();
      else if (WORD.test(sign)) {
        const from = at;
        while (at < text.length && WORD.test(text[at])) at++;
        push('word', text.slice(from, at));
      } else {
        if (sign === closing && depth === 0) {
          at++;
          return;
        }
        if (sign === '{') depth++;
        if (sign === '}') depth--;
        push('sign', sign);
        at++;
      }
    }
  }

  readCode(undefined);
  return tokens;
}

const is = (token, value) => token !== undefined && token.kind !== 'string' && token.value === value;

/** The string after the next `from` of a statement that begins at `index`, if it has one. */
function specifierAfterFrom(tokens, index) {
  for (let i = index; i < tokens.length; i++) {
    const token = tokens[i];
    if (is(token, 'from') && tokens[i + 1]?.kind === 'string') return tokens[i + 1];
    // Names, braces, commas, `as`, `type`, `*` may stand between; anything else ends the statement.
    if (token.kind === 'sign' && !'{},*'.includes(token.value)) return undefined;
    if (i > index && (is(token, 'import') || is(token, 'export'))) return undefined;
  }
  return undefined;
}

/**
 * Everything a file imports: `{ specifier, line }`, the specifier `null` where the name is computed.
 * Static imports and re-exports, `import()` as value and as type, `require()`, `import.meta.resolve()`.
 */
export function importsOf(text) {
  const tokens = tokensOf(text);
  const found = [];
  const called = (open) => {
    const argument = tokens[open + 1];
    const whole = is(tokens[open + 2], ')') || is(tokens[open + 2], ',');
    found.push({
      specifier: argument?.kind === 'string' && whole ? argument.value : null,
      line: tokens[open].line,
    });
  };
  for (const [i, token] of tokens.entries()) {
    if (token.kind !== 'word' || is(tokens[i - 1], '.')) continue;
    const next = tokens[i + 1];
    if (token.value === 'require' && is(next, '(')) called(i + 1);
    else if (token.value === 'import' && is(next, '(')) called(i + 1);
    else if (token.value === 'import' && is(next, '.')) {
      if (is(tokens[i + 4], 'resolve') && is(tokens[i + 5], '(')) called(i + 5);
    } else if (token.value === 'import' && next?.kind === 'string')
      found.push({ specifier: next.value, line: token.line });
    else if (token.value === 'import' || token.value === 'export') {
      const open = is(next, 'type') ? tokens[i + 2] : next;
      if (token.value === 'export' && !is(open, '{') && !is(open, '*')) continue;
      const from = specifierAfterFrom(tokens, i + 1);
      if (from !== undefined) found.push({ specifier: from.value, line: from.line });
    }
  }
  return found;
}

/** Lines of `/// <reference …>`, which brings in types past every other rule. */
export function referencesOf(text) {
  const lines = text.split('\n').entries();
  return [...lines].filter(([, line]) => /^\s*\/\/\/\s*<reference\b/.test(line)).map(([index]) => index + 1);
}
