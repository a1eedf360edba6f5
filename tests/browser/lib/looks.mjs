// The intended look of a screen, kept small: the mean brightness (0 to 255) of cells of 20 x 20 CSS
// pixels, two hexadecimal digits each, one line of text per row of cells.
import fs from 'node:fs';
import path from 'node:path';
import { decodePng } from './pixels.mjs';

const cell = 20;
const most = 6; // difference of a cell's brightness that is not counted
const tolerated = 0.01; // share of cells that may differ by more

// Rows of cells of a screenshot with one pixel per CSS pixel.
export function lookOf(png) {
  const { width, height, channels, data } = decodePng(png);
  const rows = [];
  for (let top = 0; top + cell <= height; top += cell) {
    let row = '';
    for (let left = 0; left + cell <= width; left += cell) {
      let sum = 0;
      for (let y = top; y < top + cell; y++) {
        for (let x = left; x < left + cell; x++) {
          const at = (y * width + x) * channels;
          sum += 0.299 * data[at] + 0.587 * data[at + 1] + 0.114 * data[at + 2];
        }
      }
      row += Math.round(sum / (cell * cell)).toString(16).padStart(2, '0');
    }
    rows.push(row);
  }
  return rows;
}

const brightness = (row) => row.match(/../g).map((two) => parseInt(two, 16));

// What is different, in words; '' if it is the same within the tolerance.
export function lookDifference(kept, now) {
  if (!kept) return 'no look is kept of it';
  if (kept.length !== now.length || kept[0].length !== now[0].length) return 'another size';
  const rows = [];
  let other = 0;
  let cells = 0;
  for (let y = 0; y < kept.length; y++) {
    const before = brightness(kept[y]);
    const changed = brightness(now[y]).filter((b, x) => Math.abs(b - before[x]) > most).length;
    cells += before.length;
    other += changed;
    if (changed > 0) rows.push(y * cell);
  }
  if (other <= tolerated * cells) return '';
  return `${other} of ${cells} cells are brighter or darker, in the rows at ${rows.join(', ')} px`;
}

// One file of looks: { screen: rows }.
export class Looks {
  constructor(folder, name) {
    this.file = path.join(folder, name + '.json');
    this.kept = fs.existsSync(this.file) ? JSON.parse(fs.readFileSync(this.file, 'utf8')) : {};
    this.now = {};
  }
  add(screen, png) {
    this.now[screen] = lookOf(png);
  }
  differences() {
    const found = [];
    for (const screen of new Set([...Object.keys(this.kept), ...Object.keys(this.now)])) {
      const words = this.now[screen] ? lookDifference(this.kept[screen], this.now[screen]) : 'it is gone';
      if (words !== '') found.push(`${screen}: ${words}`);
    }
    return found;
  }
  accept() {
    fs.mkdirSync(path.dirname(this.file), { recursive: true });
    fs.writeFileSync(this.file, JSON.stringify(this.now, null, 0).replaceAll('],"', '],\n"') + '\n');
  }
}
