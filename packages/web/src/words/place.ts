import { type Characteristic, type Place, placeInWords, placeText } from '@fettle/book';

/** `main 2, front, 90°`; empty where there is one place only. */
export const placeWords = ({ places }: Pick<Characteristic, 'places'>, place: Place): string =>
  placeInWords(places, place);

export const fullName = (characteristic: Characteristic, place: Place): string => {
  const at = placeWords(characteristic, place);
  return at === '' ? characteristic.name : `${characteristic.name}, ${at}`;
};

/** As the hash of the page carries it. */
export const placeKey = (characteristic: Characteristic, place: Place): string =>
  placeText(place, characteristic.places);
