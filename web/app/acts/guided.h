// What the guide would have the cook do next: derived from the cutting of the open session and from the draft,
// the same for the screen that shows it and for the act that weighs a block. Needs no frame.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "web/app/desk/desk.h"
#include "web/app/keypad/draft.h"

namespace tallyblock {

// The piece, or the long piece that is being cut: the one chosen, else the first with something to cut. Or null.
const CuttingObject* object_now(const CuttingView& view, const Draft& draft);

const CutLine* last_cut(const CuttingObject& object);  // or null
bool is_part_weighed(const CutLine& cut);
// The last cut, if its weight or part of it is still to come; null when it was said that no more comes.
const CutLine* open_cut(const CuttingObject& object);

// Marks that were scored into the piece before they are cut: they stay where they are, whatever is learned. Kept
// in Draft::scored as text: length, weight and the place scored from (mm, g), then for each block after a
// semicolon where it ends, its long pieces, how many portions are for which pile and for which other one.
struct ScoredMarks {
  Length face;                       // from where, on the piece's own ruler
  std::vector<PlannedBlock> blocks;  // still to cut; `from` and `to` from there
};
std::string scored_key(const OpenSession& session, const CuttingObject& object);
std::string scored_text(const CuttingView& view, const CuttingObject& object,
                        const Guide::Advice& advice);

// The next cut: at its scored mark, else where the guide says.
struct NextCut {
  PlannedBlock block;
  bool scored = false;
  Length mark;       // on the ruler, set to the last face
  Length thickness;  // to be asked for, that the cut is there: the habit allowed for
  Mass expected;     // of a portion
  // None where none were scored, all are cut, or the piece was measured anew since.
  std::optional<ScoredMarks> marks;
};
// Not where the advice is done.
NextCut next_cut(const OpenSession& session, const Draft& draft, const CuttingView& view,
                 const CuttingObject& object, const Guide::Advice& advice);

// The advice the next weighed block follows.
struct Followed {
  std::string pile;   // key, of the portion that is weighed next
  std::string other;  // key, of the portions of the cut beyond `counted`; "": all go to `pile`
  int counted = 4;
  std::string long_piece;  // key; "" the piece itself
  int k = 1;
  Length thickness;            // as the ruler shows it
  Mass target, expected;       // of one portion
  std::optional<EntryId> cut;  // already cut, this only weighs (more of) it
  unsigned missing = 1;        // portions of it for this pile not weighed yet
  double log_sd = 0.0;         // of the weight expected; 0: nothing is expected
};
// None where there is nothing to follow: no plan, or all is cut.
std::optional<Followed> followed(const OpenSession& session, const Draft& draft,
                                 const CuttingNow& cutting);

// What was trimmed off the block that the reading weighs, where its cut gave that one block. Precondition: the
// entry is there.
std::vector<EntryId> trims_of(const OpenSession& session, const EntryId& id);

}  // namespace tallyblock
