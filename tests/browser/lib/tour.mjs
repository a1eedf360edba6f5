// The way through all screens, with the invented sample loaded.

// Visits every screen and panel, calling look(name) on each. Begins on the first screen.
export async function everyScreen(cook, look) {
  await look('first-visit');
  await cook.tap(/^Try the invented example/);
  await look('cautions');
  await cook.understand();
  await cook.sees(/The sample is loaded/);
  await look('pieces');
  await cook.tap('More');
  await look('settings');
  await cook.tap('Pieces');
  for (const name of ['Bin', 'About']) {
    await cook.tap('More');
    await cook.tap(name);
    await look(name.toLowerCase());
    await cook.tap('Pieces');
  }
  await cook.tap(/^Beef tenderloin/); // done: its result
  await cook.tap('Board');
  await look('board');
  await cook.tap('Pieces');
  await cook.tap(/^Pork loin/);
  await cook.tap('Board');
  await look('weigh'); // three rows of piles
  await cook.tap(/^How weighed/);
  await look('weigh-how');
  await cook.tap('Done');
  await cook.tap(/^Correct/);
  await look('weigh-last');
  await cook.tap('Back to the board');
  for (const [open, close, name] of [['New pile', 'Close', 'new-pile'],
    ['All readings', 'Back to the board', 'readings']]) {
    await cook.tap('More');
    await cook.tap(open);
    await look(`weigh-${name}`);
    await cook.tap(close);
  }
  for (const name of ['Result', 'More', 'Share']) {
    await cook.tap(name);
    await look(name === 'More' ? 'details' : name.toLowerCase());
  }
  await cook.tap('Result');
  await cook.chapter(/, per kg, |^Paid, /);
  await cook.tap(/^Price, /);
  await look('result-keypad');
  await cook.tap('Close');
  await whereToCut(cook, look);
}

// The loin measured, planned, and its first mark.
async function whereToCut(cook, look) {
  await cook.tap('Where to cut');
  await look('cut-first');
  await cook.tap('How long is it?');
  for (const figure of ['600', '130', '80']) {
    await cook.digits(figure);
    await look(`cut-typing-${figure}`);
    await cook.tap('Save');
  }
  await cook.tap('Same all along');
  await look('cut-measured');
  await cook.tap('See the plan');
  await look('cut-plan');
  await cook.tap(/^(Start|Go on) cutting/);
  await look('cut-guide');
}
