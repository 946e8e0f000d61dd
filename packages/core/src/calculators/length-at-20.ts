import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { LENGTH_AT_20_RANGE, lengthAt20, lengthAtTemperature } from '../metrology/temperature.ts';
import { celsius, metre, perKelvin } from '../units/si.ts';

const ZERO_CELSIUS = 273.15;
const EXPANSION = { min: -1e-5, max: 1e-3 };
const TEMPERATURE = { min: 0, max: 2000 };

export const LENGTH_AT_20 = calculator({
  name: 'length-at-20',
  sentence: 'Length a warm or cold part would have at 20 °C, the temperature at which limits are stated.',
  formula: [
    'L20 = L (1 + α_s (t_s − 20 °C)) / (1 + α (t − 20 °C)); without the scale α_s (t_s − 20 °C) is 0',
  ],
  sources: ['iso-1'],
  input: {
    length: quantity('length', 'L, as read'),
    temperature: quantity('temperature', 't, of the part itself, not of the room', TEMPERATURE),
    expansion_coefficient: quantity('expansion', 'α, mean linear expansion of the part', EXPANSION),
    scale_temperature: optionalQuantity(
      'temperature',
      't_s, of the instrument when it is not at 20 °C',
      TEMPERATURE,
    ),
    scale_expansion_coefficient: optionalQuantity('expansion', 'α_s, of the instrument', EXPANSION),
  },
  together: [['scale_temperature', 'scale_expansion_coefficient']],
  output: { length_at_20: { kind: 'length', doc: 'L20' } },
  range: LENGTH_AT_20_RANGE,
  example: { length: '79.94 mm', temperature: '30 degC', expansion_coefficient: '21.5e-6 1/K' },
  compute: (input) => {
    const part = celsius(input.temperature - ZERO_CELSIUS);
    const { scale_temperature: scale, scale_expansion_coefficient: scaleExpansion } = input;
    const length =
      scale === undefined || scaleExpansion === undefined
        ? metre(input.length)
        : lengthAtTemperature(metre(input.length), celsius(scale - ZERO_CELSIUS), perKelvin(scaleExpansion));
    return {
      results: { length_at_20: lengthAt20(length, part, perKelvin(input.expansion_coefficient)) },
      cautions:
        part < -40 || part > 150
          ? [
              {
                code: 'temperature/out-of-range',
                message: `One mean coefficient holds for: ${LENGTH_AT_20_RANGE}.`,
              },
            ]
          : [],
    };
  },
});
