#include "cook.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/rounding.h"
#include "core/typed/typed.h"

namespace tallyblock {
namespace {

constexpr double kMostCuts = 30.0;  // a prior scatter never outweighs this many cuts

bool usable(const CookRecord& record) {
  return record.cuts > 0 && std::isfinite(record.habit) && std::abs(record.habit) < 1.0 &&
         std::isfinite(record.habit_sd) && record.habit_sd > 0.0 && std::isfinite(record.scatter) &&
         record.scatter > 0.0 && record.scatter < 1.0;
}

}  // namespace

CookPrior carried_prior(const std::vector<CookRecord>& records) {
  CookPrior prior;
  const double between = kBetweenSessions * kBetweenSessions;
  double precision = 1.0 / (prior.habit_sd * prior.habit_sd);
  double habit = 0.0;
  double cuts = prior.scatter_weight;
  double squares = prior.scatter * prior.scatter * cuts;
  bool any = false;
  for (const CookRecord& record : records) {
    if (!usable(record)) continue;
    any = true;
    const double weight = 1.0 / (record.habit_sd * record.habit_sd + between);
    habit += weight * record.habit;
    precision += weight;
    squares += record.scatter * record.scatter * static_cast<double>(record.cuts);
    cuts += static_cast<double>(record.cuts);
  }
  if (!any) return prior;
  prior.habit = habit / precision;
  prior.habit_sd = std::min(prior.habit_sd, std::sqrt(1.0 / precision + between));
  prior.scatter = std::sqrt(squares / cuts);
  prior.scatter_weight = std::min(kMostCuts, cuts);
  return prior;
}

CookPrior cook_from_setting(const std::string& text) {
  double numbers[4] = {};
  if (std::count(text.begin(), text.end(), ' ') != 3 || text.ends_with(' ')) return {};
  std::size_t at = 0;
  for (double& number : numbers) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const auto parsed = parse_number(text.substr(at, end - at), "cook", Sign::any);
    if (!parsed) return {};
    number = parsed->value;
    at = std::min(end + 1, text.size());
  }
  const CookPrior prior{numbers[0], numbers[1], numbers[2], numbers[3]};
  const bool sane = std::abs(prior.habit) < 0.5 && prior.habit_sd > 1e-4 && prior.habit_sd < 0.5 &&
                    prior.scatter > 1e-4 && prior.scatter < 0.5 && prior.scatter_weight >= 1.0 &&
                    prior.scatter_weight <= 1000.0 && at == text.size();
  return sane ? prior : CookPrior{};
}

std::string cook_setting(const CookPrior& prior) {
  return fixed_text(prior.habit, 4) + ' ' + fixed_text(prior.habit_sd, 4) + ' ' +
         fixed_text(prior.scatter, 4) + ' ' + fixed_text(prior.scatter_weight, 1);
}

}  // namespace tallyblock
