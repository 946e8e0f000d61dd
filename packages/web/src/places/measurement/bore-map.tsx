import { type Characteristic, jobMap, mapPictures, mapWords } from '@fettle/book';
import { type Picture, unrolledBoresSvg } from '@fettle/draw';
import { useCallback, useMemo } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { assessed, book } from '../../state/job.ts';
import { unitOf } from '../../state/units.ts';
import { shown } from '../../words/quantity.ts';

/** Every bore or journal cut open and laid flat, with what each place of it reads; once two places are known. */
export function BoreMap({ characteristic }: { readonly characteristic: Characteristic }) {
  const [now, { judgements }] = [book.value, assessed.value];
  const map = useMemo(() => jobMap(now, characteristic, judgements), [now, characteristic, judgements]);
  const draw = useCallback(
    (picture: Picture) =>
      map
        ? unrolledBoresSvg(mapPictures.unrolledPicture(map, unitOf, 'the place that decides'), picture)
        : '',
    [map],
  );
  if (map?.strip === undefined || map.valued < 2) return null;
  const unit = unitOf(characteristic);
  const words = [
    unit === undefined ? '' : `In ${mapWords.unitInWords(unit)}.`,
    map.meant === undefined || map.meant === 0
      ? ''
      : `Tinted by how far each place is from ${shown(characteristic, map.meant)}, the size meant for a new part.`,
  ]
    .join(' ')
    .trim();
  return (
    <section class="bore-map">
      <h2>Every {map.strip}, unrolled</h2>
      <Drawing
        title={`${characteristic.name}, unrolled`}
        desc={`What was found at each ${map.row} and ${map.column} of every ${map.strip}. A place struck through is not read yet.`}
        draw={draw}
        widest={900}
      />
      {words === '' ? null : <p class="soft">{words}</p>}
    </section>
  );
}
