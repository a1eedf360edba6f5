// The sample: an invented training kitchen, so that a first look shows what the tool does.
//
// Everything in it is made up: weights, prices, names, lots. Each session carries the setting "sample"
// and says so in a note. Ids and texts are fixed, so that loading twice changes nothing. The same
// files lie in demo-data/ (a test compares them).
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/entries/codec.h"

namespace tallyblock {

// With another decimal mark than the point each ends with the setting that says so.
std::vector<SessionFile> sample_sessions(std::string_view decimal_mark = ".");
// Its second part: five pieces of one line, for the log.
std::vector<SessionFile> sample_log(std::string_view decimal_mark = ".");
// Its sessions with their entries as loaded with a decimal point: known without making them.
struct SampleSize {
  std::string_view session;
  std::size_t entries;
};
inline constexpr SampleSize kSampleSizes[] = {
    {"samp1ebeef0000000001", 44}, {"samp1ep0rk0000000002", 35}, {"samp1ech1ck000000003", 42},
    {"samp1es1de0000000004", 30}, {"samp1evea10000000005", 44}, {"samp1evea10000000006", 45},
    {"samp1evea10000000007", 45}, {"samp1evea10000000008", 46}, {"samp1evea10000000009", 46}};
// The file name of a sample session in demo-data/, e.g. "beef-tenderloin.json".
std::string sample_file_name(const SessionFile& file);
std::string sample_log_file_name(const SessionFile& file);

}  // namespace tallyblock
