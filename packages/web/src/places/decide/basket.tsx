import { basketWords, type Basket as Found, moneyWords } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { usePlanned } from './planned.ts';
import { SupplyForm } from './supply-form.tsx';
import { WantForm } from './want-form.tsx';

/** The cheapest basket that covers what was decided, planned and wanted. */
export function Basket() {
  const planned = usePlanned();
  return (
    <section class="basket">
      <h2>The cheapest basket</h2>
      {planned ? (
        <Shown basket={planned.basket} because={planned.repairs.because} />
      ) : (
        <p class="soft">Working it out …</p>
      )}
    </section>
  );
}

function Shown({ basket, because }: { readonly basket: Found; readonly because: Issue | undefined }) {
  const now = book.value;
  const { needs, lines, carriage, price, cap, spent } = basket;
  const open = needs.filter(({ count }) => count > 0);
  const had = needs.filter(({ count }) => count === 0);
  const others = basketWords.alternativePrices(basket);
  const over = cap !== undefined && price + spent > cap;
  return (
    <>
      {because ? <p>{because.message}</p> : null}
      <p class={over ? 'figure issue' : 'figure'}>{basketWords.sumWords(basket)}</p>
      <ul class="lines">
        {lines.map((line) => (
          <li key={line.id}>
            <Line line={line} />
          </li>
        ))}
        {carriage.map(({ supplier, charge }) => (
          <li key={supplier} class="bought-line">
            <span class="sum">{moneyWords.money(charge, basket.currency)}</span> Carriage of {supplier}
          </li>
        ))}
      </ul>
      {basket.currency === undefined ? <p class="soft">{moneyWords.NO_CURRENCY}</p> : null}
      <p>{basketWords.proofWords(basket)}</p>
      {basketWords.gapWords(basket).map((words) => (
        <p key={words}>{words}</p>
      ))}
      <h3>What it has to cover</h3>
      {open.length === 0 ? (
        <p>Nothing: nothing is decided to be replaced or machined, planned or wanted.</p>
      ) : (
        <ul class="lines">
          {open
            .filter((need) => !basketWords.isPlanOnly(need))
            .map((need) => (
              <li key={need.key}>
                {basketWords.needWords(need)} <span class="soft">{basketWords.needReasons(now, need)}</span>
              </li>
            ))}
        </ul>
      )}
      <p>{basketWords.planNeedsWords(open)}</p>
      {had.length > 0 ? <p>On order or here: {had.map(({ name }) => name).join(', ')}.</p> : null}
      {others.length > 0 ? (
        <>
          <h3>What else would cost</h3>
          <ul class="lines">
            {others.map(({ key, words }) => (
              <li key={key}>{words}</li>
            ))}
          </ul>
        </>
      ) : null}
      <FoldOut summary="Something that can be bought">{() => <SupplyForm basket={basket} />}</FoldOut>
      <FoldOut summary="Something wanted besides the parts">{() => <WantForm />}</FoldOut>
      <p class="soft">
        What carriage and an hour cost is entered on the command line: <code>fettle terms</code>.
      </p>
    </>
  );
}

function Line({ line }: { readonly line: Found['lines'][number] }) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const order = async (): Promise<void> => {
    const entries = await write([
      {
        kind: 'order',
        body: {
          item: line.name,
          supply: line.id,
          price: Math.round(line.price * line.count * 100) / 100,
          ...(line.count > 1 && { count: line.count }),
          ...(line.supplier !== undefined && { supplier: line.supplier }),
          ...(line.number !== undefined && { number: line.number }),
        },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  const purpose = basketWords.forWords(line);
  const name = basketWords.countWords(line.count, line.name);
  return (
    <div class="order">
      <div class="bought-line">
        <span class="sum">
          {moneyWords.money(line.price * line.count, moneyWords.currencyOf(book.value))}
        </span>{' '}
        <strong>{name}</strong>
        <br />
        <span class="soft">
          {basketWords.lineDetails(line).join(', ')}
          {purpose === '' ? '' : `, ${purpose}`}
        </span>
      </div>
      <button type="button" aria-label={`${name} is ordered`} onClick={() => void order()}>
        It is ordered
      </button>
      <IssueLines issues={issues} />
    </div>
  );
}
