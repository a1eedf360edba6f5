// Pictures of every screen with the invented sample, in .build/screens, and whether they look as they
// were last accepted: node tests/browser/run.mjs --accept-looks takes the present look as intended.
import fs from 'node:fs';
import path from 'node:path';
import { Looks, lookDifference } from './lib/looks.mjs';
import { everyScreen } from './lib/tour.mjs';

const day = new Date('2026-09-09T10:00:00+02:00');

async function weighAndResult(cook, look) {
  await cook.loadSample();
  await cook.sees(/The sample is loaded/);
  await cook.tap(/^Pork loin/);
  await look('weigh');
  await cook.tap('Result');
  await look('result');
}

// Accepted looks that the README shows.
const forReadme = { '360x640-light-board': 'weigh.png', '360x640-light-result': 'result.png',
  '1024x768-light-result': 'wall.png' };

const pictures = (width, height, colorScheme, tour) => async (t) => {
  const name = `${width}x${height}-${colorScheme}`;
  const looks = new Looks(path.join(t.root, 'tests', 'browser', 'looks'), name);
  const cook = await t.cook({ viewport: { width, height }, colorScheme, reducedMotion: 'reduce',
    before: (page) => page.clock.setFixedTime(day) });
  await tour(cook, async (screen) => {
    await t.app.idle(cook.page);
    looks.add(screen, await t.picture(`${name}-${screen}`));
  });
  if (t.accept) {
    looks.accept();
    for (const [from, to] of Object.entries(forReadme)) {
      if (!from.startsWith(name)) continue;
      fs.mkdirSync(path.join(t.root, 'web', 'pictures'), { recursive: true });
      fs.copyFileSync(path.join(t.screens, from + '.png'), path.join(t.root, 'web', 'pictures', to));
    }
    return;
  }
  t.assert.deepEqual(looks.differences(), [], 'if that is meant: run.mjs --accept-looks');
};

// A row of text that moves by one row of cells, or goes, is noticed; a shade less is not.
async function noticed(t) {
  const cook = await t.cook({ viewport: { width: 360, height: 640 } });
  const looks = new Looks(t.folder, 'own');
  looks.add('pieces', await cook.page.screenshot());
  const rows = looks.now.pieces;
  t.assert.equal(lookDifference(rows, rows), '');
  await cook.tap('More');
  looks.add('more', await cook.page.screenshot());
  t.assert.notEqual(lookDifference(rows, looks.now.more), '');
}

const sizes = [[360, 640, everyScreen], [640, 360, weighAndResult], [1024, 768, weighAndResult]];

export const tests = [
  { name: 'a screen that changes is noticed', quick: false, run: noticed },
  ...sizes.flatMap(([width, height, tour]) => ['light', 'dark'].map((theme) => ({
    name: `pictures ${width}x${height} ${theme} look as accepted`, quick: false,
    run: pictures(width, height, theme, tour) }))),
];
