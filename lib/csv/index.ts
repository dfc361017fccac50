export { asItWas, csvText, withoutFormula } from './csv-text.ts';
