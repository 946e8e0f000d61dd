import { basketWords, moneyWords, type OrderStanding, orderStandings, sumSaid } from '@fettle/book';
import { type Issue, ok } from '@fettle/core';
import { useMemo, useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { assessed, book, write } from '../../state/job.ts';
import { whenWords } from '../../words/entry.ts';
import { Arrival } from './arrival.tsx';
import { plainNumber } from './plain-number.ts';

/** What was ordered and whether it has come. */
export function Orders() {
  const now = book.value;
  const { judgements } = assessed.value;
  const orders = useMemo(() => orderStandings(now, judgements), [now, judgements]);
  const waited = orders.filter(({ state }) => state === 'waited');
  const here = orders.filter(({ state }) => state !== 'waited');
  return (
    <section>
      <h2>On order</h2>
      {waited.length === 0 ? <p>Nothing is on order.</p> : null}
      <ul class="lines">
        {waited.map((order) => (
          <Order key={order.order.entry.id} standing={order} />
        ))}
      </ul>
      {here.length > 0 ? (
        <>
          <h2>Arrived</h2>
          <ul class="lines">
            {here.map((order) => (
              <Order key={order.order.entry.id} standing={order} />
            ))}
          </ul>
        </>
      ) : null}
      <NewOrder />
    </section>
  );
}

function Order({ standing }: { readonly standing: OrderStanding }) {
  const { entry, body, receipts } = standing.order;
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const receive = async (): Promise<void> => {
    const entries = await write([{ kind: 'receipt', body: { order: entry.id } }]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  const about = basketWords.orderDetails(standing);
  return (
    <li>
      <div class="order">
        <p>
          <strong>{body.item}</strong>
          {about.length > 0 ? `, ${about.join(', ')}` : ''}{' '}
          <span class="soft">
            {entry.who}, {whenWords(entry.at)}
          </span>
          {receipts.length > 0 ? (
            <>
              <br />
              {basketWords.standingWords(standing)}
            </>
          ) : null}
        </p>
        {receipts.length > 0 ? null : (
          <button type="button" aria-label={`${body.item} has arrived`} onClick={() => void receive()}>
            It has arrived
          </button>
        )}
      </div>
      <IssueLines issues={issues} />
      {receipts.length > 0 ? <Arrival standing={standing} /> : null}
    </li>
  );
}

const FIELDS = [
  { key: 'item', name: 'What' },
  { key: 'supplier', name: 'From whom' },
  { key: 'number', name: 'Number, as marked' },
  { key: 'price', name: 'Price', decimal: true },
  { key: 'days', name: 'Days until it comes', decimal: true },
] as const;
type Said = Record<(typeof FIELDS)[number]['key'], string>;
const NOTHING: Said = { item: '', supplier: '', number: '', price: '', days: '' };

function NewOrder() {
  const [said, setSaid] = useState<Said>(NOTHING);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const enter = async (event: Event): Promise<void> => {
    event.preventDefault();
    const item = said.item.trim();
    const price =
      said.price.trim() === ''
        ? ok(undefined)
        : sumSaid('price', said.price, moneyWords.currencyOf(book.value));
    const days = plainNumber('days', said.days);
    const found = [...(price.ok ? [] : price.issues), ...(days.issue ? [days.issue] : [])];
    if (item === '')
      found.unshift({
        code: 'order/nothing-said',
        at: 'item',
        got: 'nothing',
        wanted: 'what is ordered',
        message: 'Say what is ordered, such as relief spring.',
      });
    if (!price.ok || found.length > 0) return setIssues(found);
    const [supplier, number] = [said.supplier.trim(), said.number.trim()];
    const entries = await write([
      {
        kind: 'order',
        body: {
          item,
          ...(supplier !== '' && { supplier }),
          ...(number !== '' && { number }),
          ...(price.value !== undefined && { price: price.value }),
          ...(days.value !== undefined && { lead_days: days.value }),
        },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setSaid(NOTHING);
  };
  return (
    <form class="form two" onSubmit={(event) => void enter(event)}>
      <h3 class="wide">Enter an order</h3>
      {FIELDS.map((field) => (
        <label key={field.key}>
          {field.name}
          <input
            value={said[field.key]}
            maxLength={200}
            inputMode={'decimal' in field ? 'decimal' : undefined}
            onInput={(event) => setSaid({ ...said, [field.key]: event.currentTarget.value })}
          />
        </label>
      ))}
      <div class="wide">
        <IssueLines issues={issues} />
        <button type="submit">It is ordered</button>
      </div>
    </form>
  );
}
