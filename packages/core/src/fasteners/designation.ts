import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { metre } from '../units/si.ts';
import { metricSize } from './metric-series.ts';
import { metricThread, type Thread } from './thread.ts';
import { unifiedFrom } from './unified-designation.ts';

/** Forms with other flanks, other roots or a taper. They are named so that none is ever taken for a 60° form. */
const FOREIGN =
  /(?<![a-z])(B\.?S\.?W|B\.?S\.?F|B\.?S\.?C(?:Y|YC|YCLE)?|B\.?S\.?B|WHIT(?:WORTH)?|BRITISH|CYCLE|CYC|C\.?E\.?I|B\.?S\.?P(?:P|T)?|B\.?A|NPT[FR]?|NPS[CFM]?|ACME|UNJ[CF]?|TR)\b|^\s*(?:G|RC|RP|R|TR)\s*\d|\d\s*W\b|\bW\s*\d/i;

const unreadable = (text: string, at: string, wanted: string, message: string): Outcome<Thread> =>
  failed({ code: 'thread/unreadable', at, got: text, wanted, message });

/**
 * A thread from the way the trade writes it: `5/16-18`, `5/16"-18 UNC-2A`, `1/4 UNF`, `#10-32`, `M8x1.25`, `M8`.
 * A stated series must hold the stated pitch; an inch pitch that no Unified series has at that size is not
 * guessed at, since old cycle and Whitworth threads look just like it.
 *
 * @source asme-b1-1, iso-261
 */
export function threadFrom(text: string, at = 'designation'): Outcome<Thread> {
  const plain = text.trim();
  if (FOREIGN.test(plain)) return failed(unknownForm(text, at));
  if (/\d,\d/.test(plain)) {
    return unreadable(text, at, 'a decimal point', 'Write the pitch with a point, as in M8x1.25.');
  }
  return /^m/i.test(plain) ? metricFrom(plain, at) : unifiedFrom(plain, at);
}

function metricFrom(text: string, at: string): Outcome<Thread> {
  const match =
    /^m\s*(\d+(?:\.\d+)?)(?:\s*[x×*/-]\s*(\d*\.?\d+))?(?:\s*[-–]?\s*\d[a-h](?:\s*\d[a-h])?)?\s*$/i.exec(text);
  if (!match) {
    return unreadable(
      text,
      at,
      'such as M8x1.25 or M8',
      'Write M, the diameter, x and the pitch in millimetres.',
    );
  }
  const diameter = Number(match[1]);
  const size = metricSize(diameter);
  if (!size) {
    return failed({
      code: 'thread/unknown-size',
      at,
      got: text,
      wanted: 'a metric size from M1.6 to M48 of the standard series',
      message: `There is no standard metric thread M${diameter}. Measure the outside diameter again.`,
    });
  }
  const pitch = match[2] === undefined ? size.coarse : Number(match[2]);
  if (pitch === undefined || !size.pitches.includes(pitch)) {
    const listed = size.pitches.map(String).join(', ');
    return failed({
      code: 'thread/pitch-not-listed',
      at,
      got: text,
      wanted: `M${diameter} with a pitch of ${listed} mm`,
      message: `M${diameter} is made with a pitch of ${listed} mm. Check the pitch with a gauge and write it out.`,
    });
  }
  return ok(
    metricThread(metre(diameter / 1000), metre(pitch / 1000), pitch === size.coarse ? 'coarse' : 'fine'),
  );
}

function unknownForm(text: string, at: string): Issue {
  return {
    code: 'thread/unknown-form',
    at,
    got: text,
    wanted: 'a Unified (UNC, UNF, UNEF, UN, UNS) or an ISO metric thread',
    message:
      'This thread form is not known here and is never treated as Unified. ' +
      "Take its figures from the maker's data or from its own standard.",
  };
}
