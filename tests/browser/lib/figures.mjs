// Figures as the result screen shows them, against the core's report of the exported file.
import assert from 'node:assert/strict';

// Shown text -> the core's figure; the factor turns the core's unit (g, ratio, money per g) into the
// shown. A null in the report means that the figure is not known and so is not looked for.
const target = (r) => r.targets?.[0];
const timed = (r) => (r.minutes === null ? null : r); // without minutes no verdict is shown
export const shownFigures = [
  [/^Portions, of the whole: ([-\d.]+) %$/, (r) => r.primary_ratio, 100],
  [/^Portions and secondary cuts, of the whole: ([-\d.]+) %$/, (r) => r.primary_and_secondary_ratio, 100],
  [/^Everything usable, of the whole: ([-\d.]+) %$/, (r) => r.usable_ratio, 100],
  [/^Lost in cutting: ([-\d.]+) g$/, (r) => r.loss_g],
  [/^Lost in cutting, of the whole: ([-\d.]+) %$/, (r) => r.loss_ratio, 100],
  [/^Paid for the whole piece: ([-\d.]+) €$/, (r) => r.cost],
  [/^Value of the other piles: ([-\d.]+) €$/, (r) => r.by_product_value],
  [/^Value of the portions \(net cost\): ([-\d.]+) €$/, (r) => r.net_cost],
  [/^Portions, per kg: ([-\d.]+) €$/, (r) => r.cost_per_primary_g, 1000],
  [/^Portions without any credit: ([-\d.]+) € per kg$/, (r) => r.cost_per_primary_g_no_credit, 1000],
  [/^Everything usable, per kg: ([-\d.]+) €$/, (r) => r.cost_per_usable_g, 1000],
  [/^Portions alone carry all: ([-\d.]+)$/, (r) => r.factor_nothing_saved],
  [/^Everything usable carries alike: ([-\d.]+)$/, (r) => r.factor_all_usable],
  [/^Cost factor, other piles credited: ([-\d.]+)$/, (r) => r.cost_factor],
  [/^Labour: ([-\d.]+) €$/, (r) => r.labour],
  [/^Ready-cut, to the same trim: ([-\d.]+) € per kg$/, (r) => r.ready_cut_same_trim_per_g, 1000],
  [/^Saved by cutting it yourself: ([-−\d.]+) €$/, (r) => timed(r)?.saving],
  [/^You could have spoiled, counted as [^:]+: ([-−\d.]+) g$/, (r) =>
    (timed(r)?.may_be_spoiled_g >= 0 ? r.may_be_spoiled_g : null)],
  [/^You could have thrown away: ([-−\d.]+) g$/, (r) =>
    (timed(r)?.miscut_pile && r.may_be_spoiled_g !== null && r.may_be_binned_g > 0 ? r.may_be_binned_g : null)],
  [/^Portions lacking to come out even: ([-−\d.]+) g$/, (r) =>
    (timed(r)?.may_be_spoiled_g < 0 ? -r.may_be_spoiled_g : null)],
  [/^Buying it ready-cut pays below: ([-\d.]+) € per kg$/, (r) => r.break_even_ready_cut_per_g, 1000],
  [/^Cutting pays up to: ([-−\d.]+) min$/, (r) => r.break_even_minutes],
  [/^The whole piece may cost up to: ([-\d.]+) € per kg$/,
    (r) => r.break_even_as_purchased_price_per_g, 1000],
  [/^Portion cost without labour, [^:]+: ([-\d.]+) €$/, (r) => target(r)?.portion_cost],
];

const lines = [/, per kg, /, /^((Cheaper|Dearer) than ready-cut|Cut it or buy it cut)/, /^(On target|A portion is to weigh)/,
  /^Lost in cutting, /, /^All figures$/];

// The accessible tree of the result with each of its lines opened in turn.
export async function everyChapter(app, cook) {
  const nodes = [];
  for (const line of lines) {
    if (!(await app.find(cook.page, 'button', line))) continue;
    await cook.chapter(line);
    nodes.push(...await app.tree(cook.page));
  }
  return nodes;
}

// Every figure known is on the screen and equals the core's within half of its last shown digit.
// nodes: the accessible tree. Returns how many were compared.
export function compareShown(nodes, report) {
  const wrong = [];
  let compared = 0;
  for (const [pattern, value, scale = 1] of shownFigures) {
    const figure = value(report);
    if (figure === null || figure === undefined) continue;
    const expected = figure * scale;
    const node = nodes.find((n) => n.role === 'button' && pattern.test(n.name));
    if (!node) {
      wrong.push(`${pattern} is not shown; the core says ${expected}`);
      continue;
    }
    compared++;
    const text = pattern.exec(node.name)[1].replace('−', '-');
    const half = 0.5 * 10 ** -(text.split('.')[1] ?? '').length;
    if (!(Math.abs(Number(text) - expected) <= half * 1.0001)) {
      wrong.push(`"${node.name}": the core says ${expected}`);
    }
  }
  assert.deepEqual(wrong, []);
  return compared;
}
