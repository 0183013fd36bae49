/** What the shop's sheets are asked for: which pieces lie where, and what is left. */
export { nest, nestPictures, nestWhile } from './nest/index.js';
