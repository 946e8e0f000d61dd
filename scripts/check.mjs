// `npm run check`: everything a machine can hold the house to, in one command.
import { checked, reportText } from './check/checks.mjs';
import { ROOT, ready } from './setup.mjs';

if (!ready()) process.exit(1);
const results = await checked(ROOT, (result) => console.log(reportText(result)));
process.exitCode = results.some(({ faults }) => faults.length > 0) ? 1 : 0;
