// Scores simulated shops: from, to, kind of access truth; the scores go to standard output as JSON.
import { scoreShop } from '../../packages/labour/tests/simulated/score.ts';
import { simulatedShop } from '../../packages/labour/tests/simulated/shop.ts';

const [from, to, kind] = process.argv.slice(2);
const scores = [];
for (let seed = Number(from); seed < Number(to); seed += 1) {
  scores.push(scoreShop(simulatedShop(seed, kind === 'prior' ? 'prior' : 'other')));
}
process.stdout.write(JSON.stringify(scores));
