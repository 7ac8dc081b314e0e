import styles from './Stamp.module.css';

/** The mark of a signature, and of nothing else. `date` is already written out. */
export function Stamp({
  kind,
  name,
  number,
  date,
}: {
  /** The kind of certificate, such as "Airframe and powerplant mechanic". */
  kind: string;
  name: string;
  number: string;
  date: string;
}) {
  return (
    <div className={styles.stamp}>
      <div className={styles.kind}>{kind}</div>
      <div className={styles.name}>
        <span className="spoken">Signed by </span>
        {name}
      </div>
      <div className={styles.row}>
        <span>{number}</span>
        <span>{date}</span>
      </div>
    </div>
  );
}
