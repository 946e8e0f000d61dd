// Links from one document to another must lead somewhere.
import { posix } from 'node:path';

/** The text with code blanked out line by line, so that line numbers stay. */
function withoutCode(text) {
  let fenced = false;
  return text.split('\n').map((line) => {
    if (/^\s*(```|~~~)/.test(line)) {
      fenced = !fenced;
      return '';
    }
    return fenced ? '' : line.replace(/`[^`]*`/g, '');
  });
}

/** The anchors of a document's headings, as the usual viewers make them. */
function anchorsOf(text) {
  let fenced = false;
  const headings = text.split('\n').filter((line) => {
    if (/^\s*(```|~~~)/.test(line)) fenced = !fenced;
    return !fenced && /^#{1,6} /.test(line);
  });
  return new Set(
    headings.map((line) =>
      line
        .replace(/^#+\s+/, '')
        .trim()
        .toLowerCase()
        .replace(/[^\p{L}\p{N}\s_-]/gu, '')
        .replace(/\s/g, '-'),
    ),
  );
}

function targetsOn(line) {
  const inline = [...line.matchAll(/\]\(\s*<?([^)\s>]+)>?[^)]*\)/g)];
  const listed = [...line.matchAll(/^\s*\[[^\]]+\]:\s+<?(\S+?)>?(?:\s|$)/g)];
  return [...inline, ...listed].map(([, target]) => target);
}

export function linkFaults(house) {
  const faults = [];
  for (const path of house.files.filter((one) => one.endsWith('.md')))
    for (const [index, line] of withoutCode(house.text(path)).entries())
      for (const target of targetsOn(line)) {
        if (/^[a-z][a-z0-9+.-]*:/i.test(target)) continue;
        const [file, anchor] = decodeURIComponent(target).split('#');
        const aim = file === '' ? path : posix.join(posix.dirname(path), file).replace(/\/$/, '');
        if (!house.exists(aim)) faults.push(`${path}:${index + 1} links to ${target}, which does not exist`);
        else if (anchor && aim.endsWith('.md') && !anchorsOf(house.text(aim)).has(anchor))
          faults.push(`${path}:${index + 1} links to ${target}, but ${aim} has no such heading`);
      }
  return faults;
}
