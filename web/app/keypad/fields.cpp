#include "fields.h"

#include <iterator>

namespace tallyblock {
namespace {

constexpr FieldRow kRows[] = {
#define TALLYBLOCK_FIELD(kind, name, measure, sign, subject, kept, commit) \
  {name, Measure::measure, Sign::sign, Subject::subject, KeptIn::kept},
    TALLYBLOCK_FIELDS(TALLYBLOCK_FIELD)
#undef TALLYBLOCK_FIELD
};

}  // namespace

const FieldRow& row_of(FieldKind kind) { return kRows[static_cast<std::size_t>(kind)]; }

FieldKind field_from(std::string_view name) {
  for (std::size_t i = 0; i < std::size(kRows); ++i) {
    if (kRows[i].name == name) return static_cast<FieldKind>(i);
  }
  return FieldKind::none;
}

}  // namespace tallyblock
