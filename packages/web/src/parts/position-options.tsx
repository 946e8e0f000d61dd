import { positionWords, type SheetPosition } from '@fettle/book';

/** Places on the engine to choose from, by the names the sheet gives them. */
export const PositionOptions = ({ positions }: { readonly positions: readonly SheetPosition[] }) => (
  <>
    {positions.map((one) => (
      <option key={one.id} value={one.id}>
        {positionWords(one)}
      </option>
    ))}
  </>
);
