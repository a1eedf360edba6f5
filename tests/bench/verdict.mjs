// What a measured value is called beside its budget, and whether it lets a run of the tests fail.

// A time depends on what else the machine does, so that a slow one is said and never fails; bytes, counts
// and ratios are the same on any machine and fail once they are over `budget`.
// word: '' without a budget, else 'ok', 'over budget' or 'MISSED'.
export function verdict(value, unit, budget) {
  if (budget === undefined) return { word: '', counts: false, fails: false };
  if (value <= budget) return { word: 'ok', counts: true, fails: false };
  const fails = unit !== 'ms' && unit !== 's';
  return { word: fails ? 'MISSED' : 'over budget', counts: true, fails };
}
