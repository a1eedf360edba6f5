// What changed between a piece and the one before it in its line: what a weight of portions cost, and the causes.
//
// Drawn as one bar that is cut and joined again: above what the first cost, what fell away at its end; below the same
// without it, what came on in its place.
#include <algorithm>
#include <cmath>

#include "core/base/rounding.h"
#include "core/log/log_changes.h"
#include "log_parts.h"
#include "web/kit/piece_picture.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

struct Cause {
  std::string name;
  double amount = 0.0;  // money per weight of portions, in the unit prices are in; rounded as shown
  Look look = Look::primary;
};

const LogPile* pile_of(const LogPiece& piece, const std::string& key) {
  const auto found = std::ranges::find(piece.piles, key, &LogPile::key);
  return found == piece.piles.end() ? nullptr : &*found;
}

Look look_of_cause(const std::string& cause, const LogPiece& first, const LogPiece& second) {
  const LogPile* pile = pile_of(second, cause);
  if (pile == nullptr) pile = pile_of(first, cause);
  return pile == nullptr ? Look::loss : look_of(pile->role);
}

double share_in(const LogPiece& piece, const std::string& cause) {
  if (cause == kLossCause)
    return piece.missing && piece.board ? *piece.missing / *piece.board : 0.0;
  const LogPile* pile = pile_of(piece, cause);
  return pile == nullptr ? 0.0 : pile->share;
}

std::string name_of_cause(const std::string& cause, const LogPiece& first, const LogPiece& second,
                          const show::Style& style) {
  if (cause == kRestCause) return say("changed.further");
  std::string name = cause == kLossCause ? say("changed.loss") : std::string();
  if (name.empty()) {
    const LogPile* pile = pile_of(second, cause);
    if (pile == nullptr) pile = pile_of(first, cause);
    name = pile == nullptr ? cause : pile->name;
  }
  return say("changed.share", {name, show::percent(share_in(first, cause), style),
                               show::percent(share_in(second, cause), style)});
}

// Each part as a till rounds it; what they do not add up to, the largest of them takes.
std::vector<Cause> causes_of(const LogChange& change, const CostParts& parts, const LogPiece& first,
                             const LogPiece& second, double shown_difference,
                             const show::Style& style) {
  const int decimals = show::money_decimals(style.currency);
  std::vector<Cause> out;
  const auto put = [&](std::string name, PricePerMass part, Look look) {
    const double amount = round_half_up(part.per(style.price_unit), decimals);
    if (part.per(style.price_unit) != 0.0) out.push_back({std::move(name), amount, look});
  };
  put(say("changed.price"), parts.price, Look::primary);
  put(say("changed.values"), parts.values, Look::secondary);
  for (std::size_t i = 0; i < change.causes.size(); ++i) {
    put(name_of_cause(change.causes[i], first, second, style), parts.shares[i],
        look_of_cause(change.causes[i], first, second));
  }
  if (change.with_labour) put(say("changed.labour"), parts.labour, Look::unweighed);
  std::ranges::stable_sort(out, std::ranges::greater(),
                           [](const Cause& cause) { return std::fabs(cause.amount); });
  double sum = 0.0;
  for (const Cause& cause : out) sum += cause.amount;
  if (!out.empty()) {
    out.front().amount = round_half_up(out.front().amount + shown_difference - sum, decimals);
  }
  std::erase_if(out, [](const Cause& cause) { return cause.amount == 0.0; });
  return out;
}

std::string signed_money(double amount, const show::Style& style) {
  return say(amount < 0.0 ? "changed.less" : "changed.more",
             {show::money_figures(std::fabs(amount), style)});
}

// The same slabs in both: what is in both, then each cause where it fell away or came on.
void picture(Ui& ui, double first, double second, const std::vector<Cause>& causes,
             const show::Style& style) {
  double common = first;
  for (const Cause& cause : causes) common += std::min(cause.amount, 0.0);
  if (!(common > 0.0)) return;  // the causes are larger than the cost: words only
  Piece above, below;
  above.title = say("changed.first");
  below.title = say("changed.second");
  above.whole = show::money_figures(first, style);
  below.whole = show::money_figures(second, style);
  above.value = below.value = std::max(first, second);
  above.sentence = say("changed.picture", {above.whole, below.whole, show::price_unit_name(style)});
  const auto put = [](Piece& piece, const Cause& cause, double value) {
    Slab slab;
    slab.name = cause.name;
    slab.value = value;
    slab.look = cause.look;
    piece.slabs.push_back(slab);
  };
  const Cause in_both{say("changed.common"), common, Look::primary};
  put(above, in_both, common);
  put(below, in_both, common);
  for (const Cause& cause : causes) {
    put(above, cause, std::max(-cause.amount, 0.0));
    put(below, cause, std::max(cause.amount, 0.0));
  }
  weight_and_money(ui.kit, "log/changed/picture", above, below, PieceSize::small);
}

void why_not(Ui& ui, std::string_view key) {
  ui.kit.paragraph(say(key), Tone::normal, "log/changed/why");
}

std::string_view key_of(NotCompared why) {
  switch (why) {
    case NotCompared::other_currency: return "changed.currencies";
    case NotCompared::first_no_price:
    case NotCompared::second_no_price: return "changed.no-price";
    default: return "changed.no-board";
  }
}

std::string_view key_of(NotParted why) {
  switch (why) {
    case NotParted::first_has_no_portions:
    case NotParted::second_has_no_portions: return "changed.no-portions";
    case NotParted::too_many_causes: return "changed.too-many";
    default: return "changed.too-far";
  }
}

void usual_waste(Ui& ui, const LogLine& line, const LogGroup& group, const LogPiece& piece,
                 const show::Style& style) {
  const LogSeries waste = series_of(line, group, LogFigure::waste);
  if (!waste.median) return;
  const auto usual = waste_as_usual(piece, *waste.median);
  if (!usual) return;
  const double less = usual->cost.per(style.price_unit) - usual->would_be.per(style.price_unit);
  const std::string shown = show::money_figures(less, style);
  if (less <= 0.0 || shown == show::money_figures(0.0, style)) return;
  ui.kit.paragraph(
      say("changed.usual", {show::percent(usual->usual, style), show::percent(usual->was, style),
                            show::price_unit_name(style), shown}),
      Tone::normal, "log/changed/usual");
}

void compared(Ui& ui, const LogChange& change, const CostDifference& difference,
              const LogPiece& first, const LogPiece& second, const show::Style& style) {
  if (!difference.first || !difference.second) return why_not(ui, "changed.no-portions");
  const int decimals = show::money_decimals(style.currency);
  const double was = round_half_up(difference.first->per(style.price_unit), decimals);
  const double is = round_half_up(difference.second->per(style.price_unit), decimals);
  const double more = round_half_up(is - was, decimals);
  const std::string of =
      say(change.with_labour ? "changed.of-work" : "changed.of", {show::price_unit_name(style)});
  const std::string is_shown = show::money_figures(is, style);
  if (more == 0.0) {
    ui.kit.paragraph(say("changed.same", {of, is_shown}), Tone::strong, "log/changed/sentence");
  } else {
    ui.kit.paragraph(say(more > 0.0 ? "changed.dearer" : "changed.cheaper",
                         {of, show::money_figures(std::fabs(more), style), is_shown,
                          show::money_figures(was, style)}),
                     Tone::strong, "log/changed/sentence");
  }
  if (!difference.parts) return why_not(ui, key_of(difference.why));
  const std::vector<Cause> causes =
      causes_of(change, *difference.parts, first, second, more, style);
  picture(ui, was, is, causes, style);
  for (std::size_t i = 0; i < causes.size(); ++i) {
    ui.kit.list_row("log/changed/" + std::to_string(i), causes[i].name,
                    {.value = signed_money(causes[i].amount, style), .look = causes[i].look});
  }
  ui.kit.paragraph(say("changed.how"), Tone::quiet, "log/changed/how");
}

}  // namespace

void changed_page(Ui& ui, const LogLine& line, const LogPlace& at) {
  auto body = ui.kit.scroll("log/body");
  auto measure = ui.kit.measure();
  ui.kit.heading(say("changed.title"), 1, "log/title");
  const LogGroup& group = group_with(line, at.piece);
  const LogPiece* second = piece_in(line, group, at.piece);
  const LogPiece* first = piece_before(line, group, at.piece);
  if (first == nullptr || second == nullptr) {
    why_not(ui, "changed.none-before");
  } else {
    const show::Style style = style_of(*second, ui.style);
    ui.kit.paragraph(say("changed.pair", {when_of(*first, ui.style), when_of(*second, ui.style)}),
                     Tone::quiet, "log/changed/pair");
    const LogChange change = log_change(*first, *second);
    if (change.why != NotCompared::compared || !change.difference) {
      why_not(ui, key_of(change.why));
    } else {
      if (first->open || second->open) {
        ui.kit.paragraph(say("changed.open"), Tone::warn, "log/changed/open");
      }
      compared(ui, change, *change.difference, *first, *second, style);
      usual_waste(ui, line, group, *second, style);
    }
  }
  if (ui.kit.button("log/back", say("log.back"))) {
    LogPlace to = at;
    to.act.clear();
    go_in_log(ui, to);
  }
}

}  // namespace tallyblock
