// The first line of a file that is read in pieces: format, major version, how many follow. Internal to
// the codec.
#pragma once
#include <cstddef>
#include <string_view>

#include "core/base/problem.h"

namespace tallyblock {

// What the line promises in its field `counted`. Problems: as parse_json, file_not_ours (where =
// "format"), file_newer_major, a field's.
Result<std::size_t> promised_by(std::string_view line, std::string_view format,
                                std::string_view counted);

}  // namespace tallyblock
