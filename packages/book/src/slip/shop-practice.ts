/** What a shop is asked to do beside the sizes, and what to beware of. Common practice, no source. */
export interface ShopPractice {
  readonly finish: readonly string[];
  /** What comes out, is covered or stays closed. */
  readonly plug: readonly string[];
  readonly wash: readonly string[];
  /** How it is shown to be clean. */
  readonly prove: readonly string[];
  /** What comes back with it. */
  readonly back: readonly string[];
  readonly cautions: readonly string[];
}

const CRANK: ShopPractice = {
  finish: [
    'Journals ground to one size and polished; the edges of the oil holes broken after grinding.',
    'Fillets as they were: a sharp corner is where a crank breaks.',
  ],
  plug: ['Take every plug out of the oil drillings before grinding: grit goes in where nobody looks.'],
  wash: [
    'Brush every drilling from both ends, then wash it through; plugs stay out until it is proven clean.',
  ],
  prove: ['A white rag drawn through each drilling stays white, and light shows through.'],
  back: ['The plugs, counted; the size ground, stamped or on a tag; what was taken off.'],
  cautions: ['Heavy: lift it with help or a hoist, and never by a polished journal.'],
};

const BLOCK: ShopPractice = {
  finish: [
    'Each bore to its own size below, round and straight from end to end, cross-hatched; top and bottom edges broken.',
    'Main caps on, each in its place and way round and tightened as it will run, while it is bored.',
  ],
  plug: [
    'Every gallery plug and core plug out before washing, counted out and in.',
    'Passages that stay shut are plugged during machining; a rag left in is counted too.',
  ],
  wash: [
    'Bores with hot water and soap, not with solvent alone: it leaves the grit of the hone behind. Oil them at once.',
    'Every gallery brushed through from both ends.',
  ],
  prove: [
    'A white rag wiped round a bore stays white; every gallery is seen through; the plugs are counted.',
  ],
  back: ['Caps and bolts with their block, plugs by count, the pistons the bores were made to.'],
  cautions: ['Heavy: hoist and rated slings, never under the load.'],
};

const HEAD: ShopPractice = {
  finish: [
    'Gasket face flat within the limit, no more taken off than it needs: what is gone counts for ever.',
  ],
  plug: ['Oil feed and water passages open for washing, closed while the face is cut.'],
  wash: ['Every passage brushed and washed after cutting, guides last.'],
  prove: ['A white rag through each guide and oil feed stays white; light shows through.'],
  back: ['Valves and springs in the order of their places; the depth taken off, written down.'],
  cautions: ['Valve springs store enough to put out an eye: a proper compressor, eye protection.'],
};

const CAM: ShopPractice = {
  finish: ['Lobes to one profile; the surface treated as the maker of the grind asks for.'],
  plug: ['Oil drillings open before grinding.'],
  wash: ['Drillings brushed and washed through.'],
  prove: ['A white rag through each drilling stays white.'],
  back: ['The followers that go with it, each marked for its place: new on new, never mixed.'],
  cautions: [],
};

const ANY: ShopPractice = {
  finish: ['As the sizes below.'],
  plug: ['Openings that lead to oil are covered while it is machined.'],
  wash: ['Washed free of chips and grit, every passage brushed through.'],
  prove: ['A white rag through each passage stays white.'],
  back: ['What came with it, counted.'],
  cautions: [],
};

const EVERY: readonly string[] = [
  'Blasted or shot-peened? Then it is held until every passage has been opened, washed, blown and seen through.',
  'Compressed air: eye shield, and never at skin. Solvents: air the place, no flame, rags in a lidded bin.',
  'Old gaskets and linings may hold asbestos, old paint and bearings lead: assume it, work wet, never blow or dry-scrape; the local code decides about the waste.',
];

/** By the words of its place on the engine. */
export function shopPractice(position: string, name: string): ShopPractice {
  const words = `${position} ${name}`.toLowerCase();
  const own = /cam/.test(words)
    ? CAM
    : /crank/.test(words)
      ? CRANK
      : /block|cylinder-barrel|barrel|crankcase/.test(words)
        ? BLOCK
        : /head/.test(words)
          ? HEAD
          : ANY;
  return { ...own, cautions: [...own.cautions, ...EVERY] };
}
