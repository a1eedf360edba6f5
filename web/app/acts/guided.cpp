#include "guided.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/decimal.h"
#include "core/base/rounding.h"
#include "core/cutting/advice_text.h"
#include "core/cutting/ruler.h"

namespace tallyblock {
namespace {

Mass whole_of(const CuttingView& view, const CuttingObject& object) {
  if (object.weight) return *object.weight;
  return view.input ? view.input->shape.mass() : Mass();
}

// Words parted by blanks.
std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

// Of text that may be anything: below 0 and beyond what is cut at a board is -1.
double number_in(const std::string& word) {
  const ReadDecimal read = read_decimal(word);
  return read.used > 0 && read.value >= 0.0 && read.value < 1e6 ? read.value : -1.0;
}

std::optional<PlannedBlock> block_from(const std::string& text, const CuttingView& view) {
  const std::vector<std::string> words = words_of(text);
  if (words.size() != 6) return std::nullopt;
  const double to = number_in(words[0]), k = number_in(words[1]);
  const double counted = number_in(words[2]), others = number_in(words[4]);
  PlannedBlock block;
  block.spec = spec_of(view.specs, words[3]);
  block.other = spec_of(view.specs, words[5]);
  const bool known = block.spec < view.specs.size() && block.other < view.specs.size();
  if (!known || !(to >= 0.0) || !(k >= 1.0) || k > 4.0 || counted < 0.0 || others < 0.0) return {};
  if (counted + others > k) return std::nullopt;
  block.to = Length::millimetres(to);
  block.k = static_cast<int>(k);
  block.counted = static_cast<unsigned>(counted);
  block.other_counted = static_cast<unsigned>(others);
  return block;
}

// A mark counts as cut when the face stands nearer to it than to the one before.
std::optional<ScoredMarks> scored_marks(const OpenSession& session, const Draft& draft,
                                        const CuttingView& view, const CuttingObject& object) {
  const auto found = draft.scored.find(scored_key(session, object));
  if (found == draft.scored.end() || !object.advice || !view.input) return std::nullopt;
  const std::string& text = found->second;
  std::size_t end = std::min(text.find(';'), text.size());
  const std::vector<std::string> head = words_of(text.substr(0, end));
  if (head.size() != 3) return std::nullopt;
  const double length = (object.to - object.from).in_millimetres();
  const double grams = whole_of(view, object).in_grams();
  const bool same =
      std::abs(number_in(head[0]) - length) < 0.1 && std::abs(number_in(head[1]) - grams) < 0.1;
  if (!same) return std::nullopt;
  ScoredMarks marks{Length::millimetres(std::max(0.0, number_in(head[2]))), {}};
  Length from;
  while (end < text.size()) {
    const std::size_t next = std::min(text.find(';', end + 1), text.size());
    std::optional<PlannedBlock> block = block_from(text.substr(end + 1, next - end - 1), view);
    end = next;
    if (!block || !(block->to > from)) return std::nullopt;
    block->from = block->left_from = from;
    from = block->to;
    const Length middle = marks.face + (block->from + block->to) / 2.0;
    if (object.advice->stands_at < middle) marks.blocks.push_back(*block);
  }
  return marks.blocks.empty() ? std::nullopt : std::optional(marks);
}

Followed followed_in(const OpenSession& session, const Draft& draft, const CuttingView& view,
                     const CuttingObject& object, const Guide::Advice& advice) {
  Followed f;
  f.long_piece = object.long_piece;
  if (const CutLine* last = open_cut(object)) {
    f.pile = view.specs[last->next_spec].name;
    f.k = last->k;
    f.thickness = last->asked.value_or(Length());
    f.cut = last->id;
    f.missing = last->of_next;
    if (last->expected) {
      f.expected = last->expected->each;
      f.log_sd = last->expected->log_sd;
    }
    return f;
  }
  const NextCut next = next_cut(session, draft, view, object, advice);
  f.pile = view.specs[next.block.spec].name;
  f.k = next.block.k;
  const bool two = next.block.other_counted > 0;
  if (two) {
    f.other = view.specs[next.block.other].name;
    f.counted = static_cast<int>(next.block.counted);
  }
  f.thickness = next.thickness;
  f.target = view.specs[next.block.spec].target;
  f.expected = next.expected;
  f.log_sd = advice.expected > Mass() ? advice.scatter / advice.expected : 0.0;
  f.missing = two ? next.block.counted : static_cast<unsigned>(f.k);
  return f;
}

}  // namespace

const CuttingObject* object_now(const CuttingView& view, const Draft& draft) {
  const bool split = view.objects.size() > 1;
  const std::string& chosen = draft.long_piece;
  const CuttingObject* found = nullptr;
  for (const CuttingObject& object : view.objects) {
    const bool whole_of_split = split && object.long_piece.empty() && object.cuts.empty();
    if (whole_of_split) continue;
    if (object.long_piece == chosen) return &object;
    const bool due = object.advice && !object.advice->done;
    if (found == nullptr || (due && found->advice && found->advice->done)) found = &object;
  }
  return found;
}

const CutLine* last_cut(const CuttingObject& object) {
  return object.cuts.empty() ? nullptr : &object.cuts.back();
}

bool is_part_weighed(const CutLine& cut) {
  return cut.asked && static_cast<int>(cut.portions.size()) < cut.k;
}

const CutLine* open_cut(const CuttingObject& object) {
  const CutLine* last = last_cut(object);
  const bool more = last != nullptr && is_part_weighed(*last);
  return more && (!last->closed || last->portions.empty()) ? last : nullptr;
}

std::string scored_key(const OpenSession& session, const CuttingObject& object) {
  return session.id + "/" + object.long_piece;
}

std::string scored_text(const CuttingView& view, const CuttingObject& object,
                        const Guide::Advice& advice) {
  std::string text = fixed_text((object.to - object.from).in_millimetres(), 2) + " " +
                     fixed_text(whole_of(view, object).in_grams(), 2) + " " +
                     fixed_text(advice.stands_at.in_millimetres(), 4);
  for (const PlannedBlock& block : advice.rest.blocks) {
    const bool two = block.other_counted > 0;
    text += ";" + fixed_text(block.to.in_millimetres(), 4) + " " + std::to_string(block.k) + " " +
            std::to_string(block.counted) + " " + view.specs[block.spec].name + " " +
            std::to_string(block.other_counted) + " " +
            view.specs[two ? block.other : block.spec].name;
  }
  return text;
}

// The place of a scored mark is known and the face before it by weight: so is the block between them.
NextCut next_cut(const OpenSession& session, const Draft& draft, const CuttingView& view,
                 const CuttingObject& object, const Guide::Advice& advice) {
  const LengthUnit ruler = ruler_unit_of(session);
  const Length next = ruler_mark(advice.next, ruler);
  NextCut guided{advice.rest.blocks.front(),
                 false,
                 next,
                 next,
                 advice.expected,
                 scored_marks(session, draft, view, object)};
  const std::optional<ScoredMarks>& marks = guided.marks;
  if (!marks) return guided;
  const PlannedBlock& block = marks->blocks.front();
  const double habit = std::exp(object.cook.habit);
  const Length thick = marks->face + block.to - advice.stands_at;
  const Length advised = advice.next * habit - advice.face_off;
  const Length asked = (thick + advice.face_off) * (1.0 / habit);
  const Length least = Length::millimetres(1.0);
  if (thick < least || advised < least || asked < least) return guided;
  const Mass all = advice.expected * static_cast<double>(advice.k) * (thick / advised);
  return {block,
          true,
          ruler_mark(thick, ruler),
          ruler_mark(asked, ruler),
          std::min(all, object.remaining) / static_cast<double>(block.k),
          marks};
}

std::optional<Followed> followed(const OpenSession& session, const Draft& draft,
                                 const CuttingNow& cutting) {
  const CuttingView* view = cutting.main();
  const CuttingObject* object = view == nullptr ? nullptr : object_now(*view, draft);
  if (object == nullptr || !object->advice || !view->input || view->specs.empty()) return {};
  if (object->advice->done && open_cut(*object) == nullptr) return {};
  return followed_in(session, draft, *view, *object, *object->advice);
}

std::vector<EntryId> trims_of(const OpenSession& session, const EntryId& id) {
  std::vector<EntryId> trims;
  const auto* block = std::get_if<body::Reading>(&session.set.find(id)->body);
  if (block == nullptr || !block->cut || target_of(session.figures, block->pile) == nullptr)
    return trims;
  const Entry* cut = session.set.find(*block->cut);
  const auto* made = cut == nullptr ? nullptr : std::get_if<body::Cut>(&cut->body);
  if (made == nullptr || advice_from(made->plan).k != 1) return trims;
  for (const Entry* entry : session.set.in_order()) {
    const auto* other = std::get_if<body::Reading>(&entry->body);
    if (other != nullptr && other->cut == block->cut &&
        target_of(session.figures, other->pile) == nullptr) {
      trims.push_back(entry->id);
    }
  }
  return trims;
}

}  // namespace tallyblock
