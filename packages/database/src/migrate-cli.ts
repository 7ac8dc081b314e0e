import { createMigrationSql, deploy, drift } from './migrate.ts';

/*
 * Usage: MIGRATOR_URL=postgresql://… tsx src/migrate-cli.ts deploy | check | diff
 * deploy applies what is missing; check ends with code 2 when migrations and schema differ; diff prints the SQL to add.
 */

const [command] = process.argv.slice(2);
const url = process.env.MIGRATOR_URL;

if (!url) {
  console.error('MIGRATOR_URL is not set: it names the database and the account that owns it.');
  process.exit(64);
}

if (command === 'deploy') {
  const applied = await deploy(url);
  console.log(applied.length === 0 ? 'Nothing to apply.' : `Applied ${applied.join(', ')}.`);
} else if (command === 'check') {
  const missing = await drift(url);
  if (missing !== null) {
    console.error(
      `The migrations and prisma/schema differ. Missing from the migrations:\n${missing}`,
    );
    process.exit(2);
  }
  console.log('The migrations and prisma/schema agree.');
} else if (command === 'diff') {
  process.stdout.write(await createMigrationSql(url));
} else {
  console.error(`There is no command "${command ?? ''}". There are: deploy, check, diff.`);
  process.exit(64);
}
