// The way through all screens, with the invented sample loaded.

const shows = async (cook, name) => (await cook.names()).some((n) => n.trim() === name);

// Visits every screen and panel, calling look(name) on each. Begins on the first screen.
export async function everyScreen(cook, look) {
  await look('first-visit');
  await cook.understand();
  await cook.tap(/^Load the sample/);
  await cook.sees(/The sample is loaded/);
  await look('pieces');
  for (const name of ['Settings', 'Bin', 'About']) {
    await cook.tap(name);
    await look(name.toLowerCase());
    await cook.tap('Pieces');
  }
  await cook.tap(/^Beef tenderloin/);
  await look('board');
  await cook.tap('Pieces');
  await cook.tap(/^Pork loin/);
  await look('weigh'); // three rows of piles
  for (const [open, close, name] of [[/^How weighed/, 'Done', 'how'],
    ['More', 'Back to the board', 'more']]) {
    if (open === 'More' && !(await shows(cook, 'More'))) continue; // only a phone held upright has it
    await cook.tap(open);
    await look(`weigh-${name}`);
    await cook.tap(close);
  }
  for (const [open, close, name] of [['New pile', 'Close', 'new-pile'],
    ['All readings', 'Back to the board', 'readings']]) {
    if (await shows(cook, 'More')) await cook.tap('More');
    await cook.tap(open);
    await look(`weigh-${name}`);
    await cook.tap(close);
  }
  for (const name of ['Result', 'Details', 'Share']) {
    await cook.tap(name);
    await look(name.toLowerCase());
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
  await cook.tap('Weigh');
  if (await shows(cook, 'More')) await cook.tap('More');
  await cook.tap(/^Where to cut/);
  await look('cut-first');
  await cook.tap('How long is it?');
  for (const figure of ['600', '130', '80']) {
    await cook.digits(figure);
    await look(`cut-typing-${figure}`);
    await cook.tap('Keep');
  }
  await cook.tap('Same all along');
  await look('cut-measured');
  await cook.tap('See the plan');
  await look('cut-plan');
  await cook.tap(/^(Start|Go on) cutting/);
  await look('cut-guide');
}
