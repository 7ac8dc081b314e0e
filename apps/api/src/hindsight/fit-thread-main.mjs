// Starts TypeScript in the thread, whatever started the process that asked for it.
import { parentPort, workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
const { backtest, fitHours } = await import('@fairlead/labour');
const { kind, items, access } = workerData;
if (kind === 'backtest') {
  const progress = (month) => parentPort.postMessage({ month });
  parentPort.postMessage({ answer: backtest(items, { accessPriors: access, progress }) });
} else {
  const { oddTimesOf } = await import('./odd-times-of.ts');
  const model = fitHours(items, { accessPriors: access });
  parentPort.postMessage({ answer: { model, odd: oddTimesOf(model, items) } });
}
