// What this copy of the app calls its own in the browser. Copies served from other paths of the same
// origin have names of their own, so that none reads, writes or deletes what is another's.

export const home = new URL('.', import.meta.url); // the folder this copy is served from
const path = home.pathname;

// The copy at the top of an origin keeps the names that were there before paths counted.
const own = path === '/' ? '' : ' ' + path;
export const oldDatabase = 'tallyblock'; // every copy's, before
export const database = oldDatabase + own;
export const lock = 'tallyblock-writer' + own;
export const channel = 'tallyblock' + own;
export const secondStore = 'kept-tallyblock ' + path; // in Cache Storage; sw.js leaves it alone
export const marker = 'tallyblock keeps' + own; // in localStorage: something was kept here once
