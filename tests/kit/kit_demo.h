// Screens that show every widget, for the kit's tests and for looking at it. Invented figures.
#pragma once
#include <functional>

#include "web/kit/kit.h"
#include "web/kit/piece_picture.h"

namespace tallyblock::test {

inline Piece demo_weight(bool is_done = true) {
  Piece p{"Pork loin, bone in", "4.86 kg", 4860, {}, "Not weighed yet", "", "", ""};
  p.slabs = {{"Portions", "2.42 kg", "49.8 %", 2420, Look::primary, 0},
             {"Tail for stew", "0.52 kg", "10.7 %", 520, Look::secondary, 0},
             {"Trim for mince", "0.61 kg", "12.6 %", 610, Look::usable_trim, 0}};
  p.rest_amount = "1.31 kg";
  p.rest_share = "27.0 %";
  if (is_done) {
    p.slabs.push_back({"Bones", "0.86 kg", "17.7 %", 860, Look::usable_trim, 1});
    p.slabs.push_back({"Fat and sinew", "0.39 kg", "8.0 %", 390, Look::unusable_trim, 0});
    p.slabs.push_back({"Loss in cutting", "0.06 kg", "1.2 %", 60, Look::loss, 0});
    p.rest_amount = p.rest_share = "";
  }
  return p;
}

inline Piece demo_money() {
  Piece p{"Money", "41.31 EUR", 4131, {}, "", "", "", ""};
  p.slabs = {{"Portions", "35.02 EUR", "84.8 %", 3502, Look::primary, 0},
             {"Tail for stew", "3.64 EUR", "8.8 %", 364, Look::secondary, 0},
             {"Trim for mince", "1.83 EUR", "4.4 %", 183, Look::usable_trim, 0},
             {"Bones", "0.82 EUR", "2.0 %", 82, Look::usable_trim, 1},
             {"Fat and sinew", "0.00 EUR", "0.0 %", 0, Look::unusable_trim, 0},
             {"Loss in cutting", "0.00 EUR", "0.0 %", 0, Look::loss, 0}};
  return p;
}

struct Demo {
  std::string digits, last;
  int taps = 0, chosen = 0;

  void piles(Kit& kit) {
    auto grid = kit.grid(3, kit.broad() ? 150 : 96);
    const Piece p = demo_weight();
    for (std::size_t i = 0; i < p.slabs.size(); ++i) {
      const Slab& s = p.slabs[i];
      const std::string path = "weigh/pile/" + std::to_string(i);
      if (kit.tile(path, s.name,
                   {.look = s.look,
                    .variant = s.variant,
                    .weight = s.amount,
                    .share = s.share,
                    .chosen = static_cast<int>(i) == chosen,
                    .compact = !kit.broad()})) {
        chosen = static_cast<int>(i);
        last = path;
        ++taps;
      }
    }
  }

  void typing(Kit& kit) {
    auto column = kit.column();
    kit.keypad_display("weigh/digits", "Weight", digits, {.unit = "g", .hint = "Type the weight"});
    KeypadOptions options;
    options.enter_label = "Weigh in";
    options.enter_detail = "Portions";
    options.units = {"g", "kg", "lb"};
    options.unit = "g";
    options.enter_look = Look::primary;
    const std::string_view key = kit.keypad("weigh/pad", options);
    if (key.empty()) return;
    ++taps;
    last = key;
    if (key.size() == 1) digits += key;
    if (key == "back" && !digits.empty()) digits.pop_back();
    if (key == "enter") digits.clear();
  }

  void weighing(Kit& kit) {
    {
      auto bar = kit.top_bar();
      kit.heading("Pork loin");
      count(kit.button("bar/pause", "Pause"), "bar/pause");
      count(kit.button("bar/more", "More", {.kind = ButtonKind::quiet, .expanded = false}),
            "bar/more");
    }
    if (kit.wide()) {
      auto panes = kit.row({1.15F, 1}, {.hand_side_last = true});
      {
        auto body = kit.scroll("weigh/body");
        piece_picture(kit, "weigh/picture", demo_weight(false), {.size = PieceSize::small});
        piles(kit);
      }
      auto side = kit.scroll("weigh/side");
      typing(kit);
      return;
    }
    auto body = kit.scroll("weigh/body");
    piece_picture(kit, "weigh/picture", demo_weight(false), {.size = PieceSize::small});
    piles(kit);
    typing(kit);
  }

  // 0 weighing, 1 result, 2 every widget.
  std::function<void(Kit&)> screen(int which) {
    return [this, which](Kit& kit) {
      if (which == 0) weighing(kit);
      if (which == 1) result(kit);
      if (which == 2) everything(kit);
    };
  }

  void count(bool tapped, std::string_view path) {
    if (!tapped) return;
    ++taps;
    last = path;
  }

  void figures(Kit& kit) {
    auto grid = kit.grid(3, 170);
    kit.figure("r/portion", "A portion costs", "2.89",
               {.size = FigureSize::key,
                .unit = "EUR",
                .explain = "200 g of portions at 14.47 EUR per kg make 2.89 EUR."});
    kit.figure("r/kilo", "A usable kilo costs", "14.47",
               {.unit = "EUR/kg",
                .doubt = "Bones have no price yet.",
                .explain = "35.02 EUR for 2.42 kg make 14.47 EUR per kg."});
    kit.figure("r/yield", "Yield", "49.8", {.unit = "%"});
  }

  void result(Kit& kit) {
    {
      auto bar = kit.top_bar();
      kit.heading("Where it went");
      count(kit.button("bar/back", "Back"), "bar/back");
    }
    {
      auto body = kit.scroll("result/body");
      weight_and_money(kit, "result/picture", demo_weight(), demo_money());
      figures(kit);
      auto panel = kit.panel();
      kit.heading("Weight and money", 2);
      table(kit);
      kit.paragraph("AP is as purchased: the piece as it was bought.", Tone::quiet);
    }
    auto bar = kit.bottom_bar();
    count(kit.button("bar/again", "Same again"), "bar/again");
    count(kit.button("bar/keep", "Keep and share", {.kind = ButtonKind::primary}), "bar/keep");
  }

  static void table(Kit& kit) {
    std::vector<TableRow> rows;
    const Piece w = demo_weight(), m = demo_money();
    for (std::size_t i = 0; i < w.slabs.size(); ++i) {
      const Slab& s = w.slabs[i];
      rows.push_back(
          {{s.name, s.amount, s.share, m.slabs[i].amount}, s.look, s.variant, false, false});
    }
    rows.push_back({{"All", "4.86 kg", "100 %", "41.31 EUR"}, {}, 0, true, false});
    kit.table("r/table", "Weight and money",
              {{"Pile", false}, {"Weight", true}, {"Share", true}, {"Money", true}}, rows);
  }

  // The rest of the widgets, each in its states.
  void everything(Kit& kit) {
    auto body = kit.scroll("all/body");
    auto measure = kit.measure();
    kit.heading("Every widget");
    kit.paragraph("Wash your hands before and after; keep the knife dry.", Tone::normal);
    kit.paragraph("Loss in cutting is more than usual.", Tone::warn);
    {
      auto row = kit.row({1, 1, 1});
      count(kit.button("all/a", "Turn it over", {.kind = ButtonKind::primary}), "all/a");
      count(kit.button("all/b", "Undo", {.detail = "Portions 212 g"}), "all/b");
      count(kit.button("all/c", "Not now", {.enabled = false}), "all/c");
    }
    const int to = kit.choice("all/choice", "How do you weigh?",
                              {"Each piece", "Growing tub", "What was taken off"}, chosen % 3);
    if (to >= 0) chosen = to;
    count(kit.button("all/toggle", "Left hand", {.pressed = true}), "all/toggle");
    count(kit.list_row("all/row1", "Portions",
                       {.detail = "10:42, Mina",
                        .value = "212 g",
                        .action = "Void",
                        .action2 = "Other pile",
                        .look = Look::primary}) != RowTap::none,
          "all/row1");
    kit.list_row("all/row2", "Fat and sinew",
                 {.detail = "10:44, Mina, void",
                  .value = "1,250 g",
                  .action = "Put back",
                  .struck = true,
                  .look = Look::unusable_trim});
    count(kit.list_row("all/row3", "Lamb shoulder",
                       {.detail = "Yesterday", .value = "3.10 kg", .opens = true}) == RowTap::row,
          "all/row3");
    count(kit.notice_bar("all/notice", "Portions: 212 g weighed in.", {.undo = "Undo"}) ==
              NoticeTap::undo,
          "all/undo");
    kit.notice_bar("all/error", "Not kept: the disk is full. Export this session now.",
                   {.close = "Close", .is_error = true});
    kit.text_box("all/name", "What is on the board?", "Pork loin", {.hint = "Type its name"});
    kit.status("all/saved", "All kept on this device");
    {
      auto row = kit.grid(3, 100);
      kit.swatch("all/s0", "Primary", Look::primary);
      kit.swatch("all/s1", "Secondary", Look::secondary);
      kit.swatch("all/s2", "Usable trim", Look::usable_trim);
      kit.swatch("all/s3", "Unusable trim", Look::unusable_trim);
      kit.swatch("all/s4", "Loss in cutting", Look::loss);
      kit.swatch("all/s5", "Not weighed yet", Look::unweighed);
    }
    kit.link("all/notices", "Licences", "notices.txt");
  }
};

}  // namespace tallyblock::test
