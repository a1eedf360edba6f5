// What a piece was priced at and what it is compared with, as fields: on its result and among its details.
#pragma once
#include <optional>
#include <string>

#include "web/figures/show.h"

namespace tallyblock {

struct Ui;

std::string price_or_empty(const std::optional<PricePerMass>& price, const show::Style& style);

void price_fields(Ui& ui);      // what the piece was priced at, by weight or in all
void ready_cut_fields(Ui& ui);  // what it is compared with
void work_fields(Ui& ui);       // minutes and wage

}  // namespace tallyblock
