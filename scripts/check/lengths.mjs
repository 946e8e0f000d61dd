// Past 300 lines there is usually a second concept in the file. A word to the reader, not a fault.
import { isSource } from './house.mjs';

const LONG = 300;
const TABLE = /(table|tables|series)\.ts$/;

export function longFiles(house) {
  return house.files
    .filter((path) => isSource(path) && !TABLE.test(path))
    .map((path) => ({ path, lines: house.text(path).trimEnd().split('\n').length }))
    .filter(({ lines }) => lines > LONG)
    .map(({ path, lines }) => `${path}:${LONG + 1} has ${lines} lines; look for the second concept`);
}
