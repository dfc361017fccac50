/** Opens the forecast files named and chooses fields by their headers: `outline.ts FILE…`; prints how many. */
import { outlineForecast } from '../../lib/forecast/index.ts';
import { openForecast } from '../../server/decoding/index.ts';

const files = await Promise.all(process.argv.slice(2).map((path) => openForecast(path, path)));
const { wanted } = outlineForecast(files);
console.log(wanted.length);
