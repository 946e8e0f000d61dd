import {
  asFittedNow,
  assessment,
  type Book,
  type JobSizes,
  jobSizes,
  placeText,
  type SizesAsked,
  sizesWords,
} from '@fettle/book';
import { CATALOGUE, failed, issue, type Outcome, ok, parseQuantity } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { blockLines } from '../words/block-lines.ts';

interface Said {
  readonly confidence?: string;
  readonly oneSided?: string;
  readonly eccentricity?: string;
  readonly stock?: string;
  readonly skim?: string;
  readonly mouth?: string;
}

export const registerSizes: Register = (program, run) => {
  program
    .command('sizes <job>')
    .description('to which sizes parts go: common over- and undersize, finished sizes, shims, the skim left')
    .option('--confidence <share>', 'chance of cleaning up that a size must have, such as 0.99')
    .option('--one-sided <share>', 'most of the wear that may lie on one side, 0.5 to 1')
    .option('--eccentricity <length>', 'how far the cut may run off the axis as made, such as "0.001 in"')
    .option('--stock <length>', 'left on the diameter for honing or polishing')
    .option('--skim <depth>', 'what a skim of this depth does; what the face asks for when absent')
    .option(
      '--mouth <area>',
      'of a chamber in the gasket face, such as "62 cm2"; as wide as the bore when absent',
    )
    .addHelpText(
      'after',
      '\nExamples:\n  fettle sizes linnet\n  fettle sizes linnet --confidence 0.99 --skim "0.010 in"',
    )
    .action((job: string, said: Said) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const asked = askedFrom(said);
        if (!asked.ok) return asked;
        const book = bench.value.book();
        const assessed = assessment(book, asFittedNow(book), CATALOGUE);
        const found = jobSizes(book, assessed, CATALOGUE, asked.value);
        return found.ok ? ok(reply(book, found.value)) : found;
      }),
    );
};

function askedFrom(said: Said): Outcome<SizesAsked> {
  const share = (text: string | undefined, at: string): Outcome<number | undefined> => {
    if (text === undefined) return ok(undefined);
    const value = Number(text.replace(/\s*%$/, '')) / (/%$/.test(text.trim()) ? 100 : 1);
    return Number.isFinite(value)
      ? ok(value)
      : failed(
          issue(
            'sizes/not-a-share',
            at,
            text,
            'a share such as 0.95',
            `"${text}" is no share. Say one such as 0.95.`,
          ),
        );
  };
  const quantity = (text: string | undefined, kind: 'length' | 'area'): Outcome<number | undefined> => {
    if (text === undefined) return ok(undefined);
    const read = parseQuantity(text, kind);
    return read.ok ? ok(read.value.value) : read;
  };
  const confidence = share(said.confidence, '--confidence');
  const oneSided = share(said.oneSided, '--one-sided');
  const eccentricity = quantity(said.eccentricity, 'length');
  const stock = quantity(said.stock, 'length');
  const depth = quantity(said.skim, 'length');
  const mouth = quantity(said.mouth, 'area');
  for (const one of [confidence, oneSided, eccentricity, stock, depth, mouth]) if (!one.ok) return one;
  const value = (one: Outcome<number | undefined>): number | undefined => (one.ok ? one.value : undefined);
  const given = <K extends string>(key: K, one: Outcome<number | undefined>) =>
    (value(one) === undefined ? {} : { [key]: value(one) }) as { [k in K]?: number };
  return ok({
    ...given('confidence', confidence),
    ...given('oneSided', oneSided),
    ...given('eccentricity', eccentricity),
    ...given('stock', stock),
    skim: { ...given('depth', depth), ...given('mouth', mouth) },
  });
}

function reply(book: Book, found: JobSizes): Reply {
  const blocks = sizesWords.sizeBlocks(book, found);
  return {
    json: {
      job: book.job,
      families: found.families.map(({ common, finished, drawing }) => ({
        characteristic: common.family.characteristic.id,
        cut: common.family.cut,
        now: common.now?.name,
        confidence: common.confidence,
        chosen: common.chosen?.size.name,
        chance: common.chosen?.chance,
        passed_over: common.passedOver?.size.name,
        set_by: common.setBy && {
          at: placeText(common.setBy.worstAt),
          worst: common.setBy.worst.value,
          cleans_up_at: common.setBy.atWorst,
        },
        options: common.options.map((option) => ({
          size: option.size.name,
          obtainable: option.size.obtainable,
          lower: option.lower,
          upper: option.upper,
          chance: option.chance,
          offers: option.offers.map(({ offer, days }) => ({ offer: offer.offer, price: offer.price, days })),
        })),
        forced_by: common.forces.map(({ characteristic, place, status }) => ({
          characteristic: characteristic.id,
          at: placeText(place),
          status,
        })),
        singles: common.singles.map((way) => ({
          offer: way.offer.offer,
          price: way.offer.price,
          days: way.days,
          mends: way.mends.map(({ place }) => placeText(place)),
          leaves: way.leaves.map(({ characteristic, place }) => `${characteristic.id}@${placeText(place)}`),
          uneven: way.uneven.map(({ feature, clearance }) => `${clearance.id}@${placeText(feature.place)}`),
          all_price: way.allPrice,
        })),
        finished: finished.map(({ at, limits, proven, suits }) => ({
          at: placeText(at),
          ...limits,
          proven,
          suits: suits.map(({ part }) => part.id),
        })),
        drawing: drawing.map(({ clearance, lower, upper }) => ({ clearance: clearance.id, lower, upper })),
      })),
      thicknesses: found.thicknesses.map(({ gap, place, filler, best, tried }) => ({
        gap: gap.id,
        at: placeText(place),
        filler: filler.id,
        best: best?.name,
        tried: tried.map((one) => ({ name: one.name, gap: one.gap.value, status: one.status })),
      })),
      skim: found.skim && {
        chamber: found.skim.now.chamber,
        ratio: found.skim.now.ratio,
        depth: found.skim.depth,
        chamber_after: found.skim.after.chamber,
        ratio_after: found.skim.after.ratio,
        ends: found.skim.ends.map(({ by, depth }) => ({ by, depth })),
      },
    },
    text:
      blocks.length === 0 ? sizesWords.NO_SIZES : blocks.flatMap(blockLines).join('\n').replace(/^\n/, ''),
  };
}
