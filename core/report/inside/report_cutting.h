// The part "cutting" of the report; keys in REPORT.md. Internal to the report.
#pragma once
#include <vector>

#include "core/cutting/cutting.h"
#include "report_json.h"

namespace tallyblock {

void write_cutting(ReportWriter& w, const std::vector<CuttingView>& cutting);

}  // namespace tallyblock
