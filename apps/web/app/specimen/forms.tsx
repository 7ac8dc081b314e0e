import { Button, ButtonLink } from '../../components/Button.tsx';
import { ChoicePress, Choices, Tick } from '../../components/Choice.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import styles from './specimen.module.css';

export function FormSpecimen() {
  return (
    <section className={styles.part}>
      <h2>What can be touched</h2>
      <div className={styles.row}>
        <Button kind="primary">Send the quote</Button>
        <Button>Save as draft</Button>
        <Button kind="plain">Add a line</Button>
        <Button disabled>Release</Button>
        <Button kind="primary" busy="Sending">
          Send the quote
        </Button>
        <ButtonLink href="#sheet">To the top</ButtonLink>
      </div>
      <div className={styles.two}>
        <div className={styles.stack}>
          <Field label="Registration" name="registration" placeholder="QQ-" />
          <Field
            label="Engine-on meter"
            name="meter"
            figures
            unit="h"
            inputMode="decimal"
            defaultValue="2463.0"
            hint="Last reading 2451.2 on 2 Mar 2026"
          />
          <Field
            label="Ceiling"
            name="ceiling"
            figures
            unit="USD"
            defaultValue="1,9oo"
            wrong="“1,9oo” is not an amount; write figures, such as 1900.00"
          />
          <Select
            label="Package"
            name="package"
            options={[
              { value: '100', words: '100-hour inspection, two-seat helicopter' },
              { value: 'annual', words: 'Annual inspection' },
            ]}
          />
          <LongField
            label="Squawk, in the pilot’s words"
            name="squawk"
            defaultValue="Smells of exhaust with the heat on."
          />
          <Field label="Closed to you" name="closed" disabled defaultValue="Released" />
        </div>
        <div className={styles.stack}>
          <Choices
            legend="What the owner said"
            name="said"
            startsAt="ahead"
            options={[
              { value: 'ahead', words: 'Go ahead', note: 'Up to the ceiling read out' },
              { value: 'not_now', words: 'Not now' },
              { value: 'talk', words: 'Talk to me first' },
              { value: 'none', words: 'No answer yet', disabled: true },
            ]}
          />
          <Tick name="read" words="I have read the cautions" note="They stay on the printed card" />
          <div>
            <ChoicePress
              kind="primary"
              type="button"
              words="Go ahead"
              note="Replace the collector, 748.50 USD"
            />
            <ChoicePress type="button" words="Not now" />
            <ChoicePress type="button" words="Talk to me first" />
          </div>
          <div data-reading="bench" className={styles.stack}>
            <Button kind="primary" size="bench">
              Found something
            </Button>
            <Button size="bench">Stop</Button>
          </div>
        </div>
      </div>
    </section>
  );
}
