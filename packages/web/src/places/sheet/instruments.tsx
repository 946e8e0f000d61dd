import { Lazy } from '../../parts/lazy.tsx';

const chest = () => import('./instrument-chest.tsx').then(({ InstrumentChest }) => InstrumentChest);
const NOTHING = {};

/** What is measured with, and how far each is to be believed. */
export const Instruments = () => <Lazy load={chest} given={NOTHING} />;
