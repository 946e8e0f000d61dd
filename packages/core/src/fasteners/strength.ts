import { failed, type Outcome, ok } from '../issue.ts';
import { type Metre, type Newton, newton, type Pascal, pascal, type SquareMetre } from '../units/si.ts';

export interface FastenerStrength {
  /** `SAE 5`, `ISO 8.8`. */
  readonly grade: string;
  readonly proof: Pascal;
  /** Yield, or the 0.2 % stress where there is no yield point; the least allowed. */
  readonly yield: Pascal;
  /** The least allowed, not the nominal the class number stands for. */
  readonly tensile: Pascal;
  /** What the class number stands for; inch grades have none. */
  readonly tensileNominal?: Pascal;
  /** Key in `sources`. */
  readonly source: string;
}

const KSI = 4448.2216152605 / 0.0254 ** 2;
const INCH = 0.0254;

/** Inches from and up to; proof, yield, tensile in ksi. Between the printed rows the larger size's row begins. */
const SAE: Readonly<Record<string, readonly (readonly [number, number, number, number, number])[]>> = {
  '1': [[0.25, 1.5, 33, 36, 60]],
  '2': [
    [0.25, 0.75, 55, 57, 74],
    [0.75, 1.5, 33, 36, 60],
  ],
  '4': [[0.25, 1.5, 65, 100, 115]],
  '5': [
    [0.25, 1, 85, 92, 120],
    [1, 1.5, 74, 81, 105],
  ],
  '7': [[0.25, 1.5, 105, 115, 133]],
  '8': [[0.25, 1.5, 120, 130, 150]],
};

/** Millimetres over and up to; tensile nominal, tensile least, yield, proof in MPa. */
const ISO: Readonly<Record<string, readonly (readonly [number, number, number, number, number, number])[]>> =
  {
    '4.6': [[0, 39, 400, 400, 240, 225]],
    '4.8': [[0, 39, 400, 420, 340, 310]],
    '5.6': [[0, 39, 500, 500, 300, 280]],
    '5.8': [[0, 39, 500, 520, 420, 380]],
    '6.8': [[0, 39, 600, 600, 480, 440]],
    '8.8': [
      [0, 16, 800, 800, 640, 580],
      [16, 39, 800, 830, 660, 600],
    ],
    '9.8': [[0, 16, 900, 900, 720, 650]],
    '10.9': [[0, 39, 1000, 1040, 940, 830]],
    '12.9': [[0, 39, 1200, 1220, 1100, 970]],
  };

/**
 * Strength of a bolt by its grade and nominal diameter.
 * Understands `SAE 5`, `Grade 5`, `SAE J429 grade 5`, `ISO 8.8`, `class 8.8`, `8.8`.
 *
 * @source sae-j429, iso-898-1
 */
export function fastenerStrength(grade: string, diameter: Metre, at = 'grade'): Outcome<FastenerStrength> {
  const metric = /^\s*(?:iso)?\s*(?:898-1)?\s*(?:property)?\s*(?:class)?\s*(\d{1,2}\.\d)\s*$/i.exec(grade);
  if (metric && ISO[metric[1]!]) return isoStrength(metric[1]!, diameter);
  const inch = /^\s*(?:sae)?\s*(?:j\s*429)?\s*(?:(?:grade|gr\.?)\s*)?(\d)\s*$/i.exec(grade);
  const named = inch && /sae|j\s*429|gr/i.test(grade);
  if (named && SAE[inch[1]!]) return saeStrength(inch[1]!, diameter);
  return failed({
    code: 'fastener/unknown-grade',
    at,
    got: grade,
    wanted: `SAE ${Object.keys(SAE).join(', ')} or ISO ${Object.keys(ISO).join(', ')}`,
    message:
      'Write the grade as "SAE 5" or "ISO 8.8", as the head marking says. An unmarked bolt has no grade.',
  });
}

function saeStrength(grade: string, diameter: Metre): Outcome<FastenerStrength> {
  const inches = round(diameter / INCH);
  // The upper row of a grade starts past the lower one's end: 1 in is still the stronger Grade 5.
  const row = SAE[grade]!.find(([from, to]) => inches >= from && inches <= to);
  if (!row) return outOfRange(`SAE ${grade}`, `${inches} in`, 'a diameter from 1/4 to 1-1/2 in');
  const [, , proof, yieldStress, tensile] = row;
  return ok({
    grade: `SAE ${grade}`,
    proof: pascal(proof * KSI),
    yield: pascal(yieldStress * KSI),
    tensile: pascal(tensile * KSI),
    source: 'sae-j429',
  });
}

function isoStrength(grade: string, diameter: Metre): Outcome<FastenerStrength> {
  const mm = round(diameter * 1000);
  const row = ISO[grade]!.find(([over, to]) => mm > over && mm <= to);
  if (!row) {
    const widest = ISO[grade]!.at(-1)![1];
    return outOfRange(`ISO ${grade}`, `${mm} mm`, `a diameter up to ${widest} mm`);
  }
  const [, , nominal, least, yieldStress, proof] = row;
  return ok({
    grade: `ISO ${grade}`,
    proof: pascal(proof * 1e6),
    yield: pascal(yieldStress * 1e6),
    tensile: pascal(least * 1e6),
    tensileNominal: pascal(nominal * 1e6),
    source: 'iso-898-1',
  });
}

/** Metres carry binary dust: 1 in must not read as 1.0000000000000002 in. */
const round = (value: number) => Number(value.toFixed(6));

const outOfRange = (grade: string, got: string, wanted: string): Outcome<never> =>
  failed({
    code: 'fastener/size-out-of-grade',
    at: 'diameter',
    got,
    wanted,
    message: `${grade} is not defined for ${got}; it needs ${wanted}. Check size and grade.`,
  });

/** Proof load, stress × area [N]. Standards round it. */
export function proofLoad(proof: Pascal, area: SquareMetre): Newton {
  return newton(proof * area);
}
