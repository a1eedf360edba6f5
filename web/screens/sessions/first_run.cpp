// While there is no piece: what the app does in three pictures, and two ways to begin.
#include "beginning.h"
#include "web/kit/piece_picture.h"
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

// Turns in which the pictures take the height that is left, and by how much at most.
constexpr int kPicturesTurn = 1;
constexpr float kPicturesBy = 72;

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
    slab.name = slab.share;
    piece.slabs.push_back(slab);
  }
  return piece;
}

// What is done, its figure beside it, and the block below.
void step(Ui& ui, const std::string& path, const std::string& words, const std::string& figure,
          const Piece& piece) {
  auto room = ui.kit.column();
  ui.kit.may_grow(kPicturesTurn, kPicturesBy);
  {
    auto line = ui.kit.row({1, 0});
    ui.kit.paragraph(words, Tone::normal, path + "/words");
    ui.kit.figure(path + "/figure", "", figure);
  }
  piece_picture(ui.kit, path + "/picture", piece, {.size = PieceSize::small, .titled = false});
}

void cost(Ui& ui) {
  const Mass one = portion(ui.style);
  const double money = kCost * one.in_grams() / kPortion;
  ui.kit.paragraph(say("first.cost", {show::mass(one, ui.style)}), Tone::normal,
                   "first/cost/words");
  const bool high = !ui.kit.low() || ui.kit.broad();
  ui.kit.figure("first/cost", "", show::money(Money::units(money), ui.style),
                {.size = high ? FigureSize::huge : FigureSize::key});
  ui.kit.paragraph(say("first.invented"), Tone::quiet, "first/invented");
}

void pictures(Ui& ui) {
  const std::string whole = show::mass(Mass::grams(kWhole), ui.style);
  const auto first = [&] {
    step(ui, "first/whole", say("first.whole"), whole, block(false, ui.style));
  };
  const auto second = [&] {
    step(ui, "first/piles", say("first.piles"), say("first.pile", {kPortions}),
         block(true, ui.style));
  };
  if (!ui.kit.wide() && !ui.kit.broad()) {
    first();
    second();
    return cost(ui);
  }
  auto abreast = ui.kit.row();
  first();
  second();
  auto column = ui.kit.column();
  cost(ui);
}

void ways(Ui& ui) {
  if (ui.kit.button("sessions/new", say("first.new"),
                    {.kind = ButtonKind::primary, .large = true})) {
    begin_new(ui);
  }
  if (ui.kit.button("first/sample", say("first.sample"), {.kind = ButtonKind::large})) {
    begin_sample(ui);
  }
}

}  // namespace

void first_run(Ui& ui) {
  state_of_list(ui);
  ui.kit.heading(say("sessions.what"), 2, "sessions/what");
  pictures(ui);
  ui.kit.fill();
  if (bar_on_top(ui)) {
    auto row = ui.kit.row();
    return ways(ui);
  }
  auto measure = ui.kit.measure();
  ways(ui);
}

}  // namespace tallyblock
