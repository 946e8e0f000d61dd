import { admittedSupply, type Basket, needNames } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { Taps } from '../../parts/taps.tsx';
import { book, write } from '../../state/job.ts';
import { idFrom } from '../../words/id.ts';
import { LeadTime } from './lead-time.tsx';
import { plainNumber } from './plain-number.ts';

const NOTHING = { need: '', name: '', supplier: '', number: '', price: '', lead: '', latest: '', size: '' };
type Trust = 'quoted' | 'assumed';

/** What goes under a need, in the words of the sheet or of whoever wanted it. */
function needTitle(need: string): string {
  const now = book.value;
  const position = now.sheet?.positions.find(({ id }) => id.replace(/[-.]?\{[^{}]*\}/g, '') === need);
  return (
    position?.name.replace(/[-. ]?\{[^{}]*\}/g, '') ??
    now.offers.get(need)?.body.name ??
    now.wants.get(need)?.body.name ??
    need
  );
}

/** An offer of a supplier: for what, from whom, under which number, at what price and by when. */
export function SupplyForm({ basket }: { readonly basket: Basket }) {
  const now = book.value;
  const [said, setSaid] = useState(NOTHING);
  const [count, setCount] = useState(1);
  const [trust, setTrust] = useState<Trust>('quoted');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [made, setMade] = useState('');
  const open = new Set(basket.needs.filter((need) => need.count > 0).map(({ key }) => key.split(' ')[0]!));
  const names = needNames(now).sort((a, b) => Number(open.has(b)) - Number(open.has(a)));
  const sizes = [
    ...new Set([...now.characteristics.values()].flatMap((one) => (one.sizes ?? []).map(({ name }) => name))),
  ];
  const suppliers = [...new Set([...now.supplies.values()].flatMap(({ body }) => body.supplier ?? []))];
  const set = (change: Partial<typeof NOTHING>): void => {
    setMade('');
    setSaid({ ...said, ...change });
  };
  const name = said.name.trim() || (said.need === '' ? '' : needTitle(said.need));
  const enter = async (event: Event): Promise<void> => {
    event.preventDefault();
    const price = plainNumber('price', said.price);
    const found = price.issue ? [price.issue] : [];
    if (said.need === '')
      found.push({
        code: 'supply/nothing-covered',
        at: 'need',
        got: 'nothing',
        wanted: 'what it is for',
        message: 'Choose what it is for: without that it is never bought.',
      });
    if (price.value === undefined && !price.issue)
      found.push({
        code: 'supply/no-price',
        at: 'price',
        got: 'nothing',
        wanted: 'a number, 0 or more',
        message: 'Give the price of one; 0 where it costs nothing.',
      });
    if (found.length > 0) return setIssues(found);
    const body = admittedSupply(now, {
      supply: freshId(idFrom(`${said.need} ${said.supplier} ${said.number}`, said.need)),
      name,
      covers: [{ need: said.need, count, ...(said.size !== '' && { size: said.size }) }],
      price: price.value!,
      trust,
      ...(said.supplier.trim() !== '' && { supplier: said.supplier.trim() }),
      ...(said.number.trim() !== '' && { number: said.number.trim() }),
      ...(said.lead.trim() !== '' && { lead_time: said.lead.trim() }),
      ...(said.latest.trim() !== '' && { latest: said.latest.trim() }),
    });
    if (!body.ok) return setIssues(body.issues);
    const entries = await write([{ kind: 'supply-offered', body: body.value }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (!entries.ok) return;
    setMade(`${name}: can be bought for ${price.value}.`);
    // The next line of one list is most often of the same supplier and as quick.
    setSaid({ ...NOTHING, supplier: said.supplier, lead: said.lead });
    setCount(1);
  };
  return (
    <form class="form two" onSubmit={(event) => void enter(event)}>
      <label>
        What it is for
        <select value={said.need} onChange={(event) => set({ need: event.currentTarget.value })}>
          <option value="">choose</option>
          {names.map((need) => (
            <option key={need} value={need}>
              {needTitle(need)}
              {open.has(need) ? ', wanted' : ''}
            </option>
          ))}
        </select>
      </label>
      {sizes.length > 0 ? (
        <label>
          Size
          <select value={said.size} onChange={(event) => set({ size: event.currentTarget.value })}>
            <option value="">as standard</option>
            {sizes.map((size) => (
              <option key={size}>{size}</option>
            ))}
          </select>
        </label>
      ) : null}
      <Field name="Called" value={name} say={(text) => set({ name: text })} />
      <label>
        How many of it one brings
        <input
          type="number"
          min="1"
          max="1000"
          value={count}
          onInput={(event) => setCount(Math.max(1, Math.round(Number(event.currentTarget.value) || 1)))}
        />
      </label>
      {suppliers.length > 0 ? (
        <div class="wide">
          <Taps
            legend="From whom"
            options={suppliers.map((value) => ({ value, words: value }))}
            chosen={said.supplier}
            choose={(supplier) => set({ supplier })}
          />
        </div>
      ) : null}
      <Field
        name={suppliers.length > 0 ? 'Or from somebody else' : 'From whom'}
        value={said.supplier}
        say={(supplier) => set({ supplier })}
      />
      <Field name="Number, as marked" value={said.number} say={(number) => set({ number })} />
      <Field name="Price of one" value={said.price} decimal say={(price) => set({ price })} />
      <LeadTime legend="It comes within" said={said.lead} say={(lead) => set({ lead })} />
      <Field
        name="Not later than, unless something breaks"
        value={said.latest}
        say={(latest) => set({ latest })}
      />
      <div class="wide">
        <Taps
          legend="Price and time are"
          options={[
            { value: 'quoted', words: 'Said by the supplier' },
            { value: 'assumed', words: 'A guess' },
          ]}
          chosen={trust}
          choose={setTrust}
        />
        <IssueLines issues={issues} />
        <p role="status">{made}</p>
        <button type="submit">It can be bought</button>
      </div>
    </form>
  );
}

function freshId(wanted: string): string {
  const { supplies, offers } = book.value;
  let id = wanted;
  for (let i = 2; supplies.has(id) || offers.has(id); i++) id = `${wanted}-${i}`;
  return id;
}

interface FieldGiven {
  readonly name: string;
  readonly value: string;
  readonly decimal?: boolean;
  readonly say: (text: string) => void;
}

export const Field = ({ name, value, decimal = false, say }: FieldGiven) => (
  <label>
    {name}
    <input
      value={value}
      maxLength={200}
      inputMode={decimal ? 'decimal' : undefined}
      onInput={(event) => say(event.currentTarget.value)}
    />
  </label>
);
