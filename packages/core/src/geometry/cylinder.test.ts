import { expect, it } from 'vitest';
import { cubicMetre, metre } from '../units/si.ts';
import { clearanceForRatio, clearanceVolume, compressionRatio, sweptVolume } from './cylinder.ts';

it('clearance is chamber, gasket, deck and dish together', () => {
  // By hand: 50 + (π/4) 8.2² × 0.12 + (π/4) 8² × 0.05 + 3 cm³ = 61.85.
  const volume = clearanceVolume({
    bore: metre(0.08),
    chamber: cubicMetre(50e-6),
    gasketThickness: metre(0.0012),
    gasketBore: metre(0.082),
    deck: metre(0.0005),
    dish: cubicMetre(3e-6),
  });
  expect(volume * 1e6).toBeCloseTo(61.85, 2);
});

it('a piston above the deck and a dome take room away', () => {
  const bare = { bore: metre(0.08), chamber: cubicMetre(50e-6) };
  const full = clearanceVolume({ ...bare, deck: metre(-0.0005), dish: cubicMetre(-3e-6) });
  expect(full).toBeLessThan(clearanceVolume(bare));
});

it('the clearance for a ratio gives that ratio back', () => {
  const swept = sweptVolume(metre(0.09), metre(0.0765));
  expect(compressionRatio(swept, clearanceForRatio(swept, 9.35))).toBeCloseTo(9.35, 12);
});
