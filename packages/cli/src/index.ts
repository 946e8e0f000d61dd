// The one door of the package.
export { main } from './main.ts';
