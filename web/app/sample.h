// The sample: an invented training kitchen, so that a first look shows what the tool does.
//
// Everything in it is made up: weights, prices, names, lots. Each session carries the setting "sample"
// and says so in a note. Ids and texts are fixed, so that loading twice changes nothing. The same
// files lie in demo-data/ (a test compares them).
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/codec.h"

namespace tallyblock {

// With another decimal mark than the point each ends with the setting that says so.
std::vector<SessionFile> sample_sessions(std::string_view decimal_mark = ".");
// The file name of a sample session in demo-data/, e.g. "beef-tenderloin.json".
std::string sample_file_name(const SessionFile& file);

}  // namespace tallyblock
