// While there is no piece: what the app does in three pictures, and two ways to begin.
#include "sessions_parts.h"
#include "web/kit/piece_picture.h"
#include "web/kit/style.h"
#include "web/screens/beginning.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// The invented example: what is shown of it before there is anything else to show.
constexpr double kWhole = 2480, kPortion = 180, kPortionOunces = 6, kCost = 8.63;
constexpr const char* kPortions = "8";
struct Share {
  Look look;
  double of_whole;
};
constexpr Share kShares[] = {{Look::primary, 0.583},
                             {Look::secondary, 0.165},
                             {Look::usable_trim, 0.096},
                             {Look::unusable_trim, 0.135}};

// The turn in which the pictures take the height that is left.
constexpr int kPicturesTurn = 1;

Mass portion(const show::Style& style) {
  const bool pounds = style.weight != WeightStyle::grams && style.weight != WeightStyle::kilograms;
  return pounds ? Mass::of(kPortionOunces, MassUnit::ounce) : Mass::grams(kPortion);
}

Piece block(bool is_cut, const show::Style& style) {
  Piece piece;
  piece.value = 1;
  piece.sentence = say(is_cut ? "first.picture-cut" : "first.picture-whole");
  if (!is_cut) return piece;
  for (const Share& share : kShares) {
    Slab slab;
    slab.look = share.look;
    slab.value = share.of_whole;
    if (share.look == Look::primary) slab.share = show::percent(share.of_whole, style);
    if (share.look == Look::primary) slab.name = say("sessions.portions");
    piece.slabs.push_back(slab);
  }
  return piece;
}

// What is done, its figure beside it, and the block below.
void step(Ui& ui, const std::string& path, const std::string& words, const std::string& figure,
          const Piece& piece) {
  auto room = ui.kit.column();
  const bool slim = ui.kit.low() && !ui.kit.wide();
  if (!slim) ui.kit.may_grow(kPicturesTurn, style::grow_pictures);
  {
    auto line = ui.kit.row({1, 0});
    ui.kit.paragraph(words, Tone::normal, path + "/words");
    ui.kit.figure(path + "/figure", "", figure, {.name = words});
  }
  const PieceSize size = ui.kit.broad() ? PieceSize::full
                         : slim         ? PieceSize::slim
                                        : PieceSize::small;
  piece_picture(ui.kit, path + "/picture", piece, {.size = size, .titled = false});
}

void cost(Ui& ui) {
  const Mass one = portion(ui.style);
  const double money = kCost * one.in_grams() / kPortion;
  ui.kit.paragraph(say("first.cost", {show::mass(one, ui.style)}), Tone::normal,
                   "first/cost/words");
  const bool high = !ui.kit.low() || ui.kit.broad();
  ui.kit.figure(
      "first/cost", "", show::money(Money::units(money), ui.style),
      {.size = high ? FigureSize::huge : FigureSize::key, .name = say("sessions.portions")});
  ui.kit.paragraph(say("first.invented"), Tone::quiet, "first/invented");
}

void whole(Ui& ui) {
  step(ui, "first/whole", say("first.whole"), show::mass(Mass::grams(kWhole), ui.style),
       block(false, ui.style));
}

void piles(Ui& ui) {
  step(ui, "first/piles", say("first.piles"), say("first.pile", {kPortions}),
       block(true, ui.style));
}

void ways(Ui& ui) {
  if (ui.kit.button("sessions/new", say("first.new"),
                    {.kind = ButtonKind::primary, .size = ButtonSize::large})) {
    begin_new(ui);
  }
  if (ui.kit.button("first/sample", say("first.sample"), {.size = ButtonSize::large_words})) {
    begin_sample(ui);
  }
}

}  // namespace

void first_run(Ui& ui) {
  const auto what = [&] { ui.kit.heading(say("sessions.what"), 2, "sessions/what"); };
  if (ui.kit.broad()) {
    auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
    {
      auto left = ui.kit.scroll("first/pictures");
      what();
      whole(ui);
      piles(ui);
    }
    auto hand = ui.kit.scroll("first/hand");
    state_of_list(ui);
    cost(ui);
    ui.kit.space();
    return ways(ui);
  }
  state_of_list(ui);
  ui.kit.space();
  what();
  if (!ui.kit.wide()) {
    whole(ui);
    piles(ui);
    cost(ui);
    ui.kit.fill();
    return ways(ui);
  }
  {
    auto abreast = ui.kit.row();
    whole(ui);
    piles(ui);
    auto third = ui.kit.column();
    cost(ui);
  }
  ui.kit.fill();
  auto row = ui.kit.row();
  ways(ui);
}

}  // namespace tallyblock
