import { ChoicePress } from '../../components/Choice.tsx';
import { Field } from '../../components/Field.tsx';
import { moneyText } from '../../lib/figures/money.ts';
import { amountText } from '../quoting/amount-field.ts';
import styles from './owner.module.css';
import type { Offer, OwnerPageData } from './owner-page.ts';
import { amountWords, choiceWords, offeredCeiling } from './owner-words.ts';

/** The three answers as a plain form. It carries what was shown, so that an answer to something else is noticed. */
export function AnswerForm({
  offer,
  you: { limit },
  secret,
}: {
  offer: Offer;
  you: OwnerPageData['you'];
  secret: string;
}) {
  const { id, revision, digest, currency, number, high } = offer;
  const ceiling = offeredCeiling(offer, limit);
  const may = limit === null || BigInt(limit) > 0n;
  const lower = ceiling < BigInt(high);
  return (
    <form
      className={styles.answers}
      method="post"
      action={`/owner/${secret}/decisions`}
      aria-label={`Your answer to offer ${number}`}
      data-screen-only=""
    >
      <input type="hidden" name="quote" value={id} />
      <input type="hidden" name="revision" value={revision} />
      <input type="hidden" name="shown" value={digest} />
      {may ? (
        <>
          <Field
            label="Go ahead up to, before tax"
            name="ceiling"
            figures
            unit={currency}
            inputMode="decimal"
            autoComplete="off"
            defaultValue={amountText(ceiling, currency)}
            hint={
              lower
                ? `You may authorise up to ${moneyText(ceiling, currency)}: the work stops there and asks again.`
                : 'Nine in ten come out under this. Give more or less as you like; past it the shop asks you again.'
            }
          />
          <ChoicePress
            kind="primary"
            name="choice"
            value="go_ahead"
            words={choiceWords.go_ahead}
            note="Do the work, up to the amount above"
          />
        </>
      ) : (
        <p>
          You may not authorise work on this aircraft by yourself; somebody who may says “Go ahead”.
        </p>
      )}
      <ChoicePress name="choice" value="not_now" words={choiceWords.not_now} note="Leave it" />
      <ChoicePress
        name="choice"
        value="talk_first"
        words={choiceWords.talk_first}
        note="The shop calls you; the offer stays open"
      />
      <p className={styles.quiet}>
        The first answer counts
        {lower ? '' : `, up to ${amountWords(ceiling, currency)} unless you change it`}. It is kept
        with the words above and the time.
      </p>
    </form>
  );
}
