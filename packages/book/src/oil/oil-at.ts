import {
  celsius,
  densityAt,
  kilogramPerCubicMetre,
  parseQuantity,
  squareMetrePerSecond,
  viscosityLine,
  viscosityOnLine,
} from '@fettle/core';
import type { FilledCircuit } from './circuit.ts';

/** The oil the circuit is filled with, at a temperature [K]: dynamic viscosity [Pa·s] and density [kg/m³]. */
export function oilAt({ input }: FilledCircuit, temperature: number): { viscosity: number; density: number } {
  const fluid = input.fluid as { kv40: string; kv100: string; density15: string; density_slope?: number };
  const si = (text: string, kind: 'kinematic-viscosity' | 'density'): number => {
    const read = parseQuantity(text, kind);
    // The sheet was checked when it was adopted.
    if (!read.ok) throw new RangeError(read.issues[0]!.message);
    return read.value.value;
  };
  const t = temperature - 273.15;
  const at15 = si(fluid.density15, 'density');
  const density =
    fluid.density_slope === undefined
      ? densityAt(kilogramPerCubicMetre(at15), celsius(t))
      : at15 - fluid.density_slope * (t - 15);
  const kinematic = (text: string) => squareMetrePerSecond(si(text, 'kinematic-viscosity'));
  const line = viscosityLine(kinematic(fluid.kv40), celsius(40), kinematic(fluid.kv100), celsius(100));
  return { viscosity: viscosityOnLine(line, celsius(t)) * density, density };
}
