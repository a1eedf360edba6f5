#include "incoming.h"

#include <algorithm>

namespace tallyblock {
namespace {

struct Weighed {
  std::optional<Measured> weight;
  unsigned count = 0;
};

Weighed look_up(const Facts& facts, Incoming which) {
  const Entry* entry = facts.winner("incoming:" + std::string(name_of(which)));
  if (entry == nullptr) return {};
  const auto* body = std::get_if<body::IncomingWeight>(&entry->body);
  if (body == nullptr) return {};
  return {
      Measured::reading(to_text(entry->id), body->weight.mass, facts.division_of(body->division)),
      body->count};
}

Measured or_zero(const std::optional<Measured>& weight) { return weight ? *weight : Measured(); }

EntryId id_of(const Facts& facts, Incoming which) {
  return facts.winner("incoming:" + std::string(name_of(which)))->id;
}

void doubt_above(const Facts& facts, Figures& figures, Incoming more, const Measured& larger,
                 Incoming less, const Measured& smaller, Mass slack) {
  const Measured excess = larger - smaller;
  const Mass limit = std::max(2.0 * excess.uncertainty() + Mass::grams(1e-6), slack);
  if (excess.value() <= limit) return;
  figures.doubts.push_back({Code::doubt_incoming_order,
                            "incoming " + std::string(name_of(more)),
                            {id_of(facts, more), id_of(facts, less)},
                            {word_of(more), larger.value(), word_of(less), smaller.value()},
                            excess.value()});
}

}  // namespace

void weigh_in(const Facts& facts, Figures& figures) {
  IncomingFigures& in = figures.incoming;
  const Weighed invoice = look_up(facts, Incoming::invoice);
  const Weighed received = look_up(facts, Incoming::received);
  const Weighed drained = look_up(facts, Incoming::drained);
  in.invoice = invoice.weight;
  in.received = received.weight;
  in.drained = drained.weight;
  in.packaging = look_up(facts, Incoming::packaging).weight;
  in.purge = look_up(facts, Incoming::purge).weight;
  in.pieces = invoice.weight    ? invoice.count
              : received.weight ? received.count
              : drained.weight  ? drained.count
                                : 1;
  const Measured lines = or_zero(in.packaging) + or_zero(in.purge);
  if (in.invoice) {
    in.as_purchased = in.invoice;
    in.as_purchased_from = "invoice";
  } else if (in.received) {
    in.as_purchased = in.received;
    in.as_purchased_from = "received";
  } else if (in.drained) {
    in.as_purchased = *in.drained + lines;
    in.as_purchased_from = "drained";
  }
  if (in.drained) {
    in.on_the_board = in.drained;
  } else if (in.received) {
    in.on_the_board = *in.received - lines;
  } else if (in.invoice) {
    in.on_the_board = *in.invoice - lines;
  }
  if (in.invoice && in.received) in.received_short = *in.invoice - *in.received;
  if (in.invoice && in.drained) {
    in.short_delivery = *in.invoice - (*in.drained + lines);
  } else {
    in.short_delivery = in.received_short;
  }
}

void doubt_incoming(const Facts& facts, Figures& figures) {
  const IncomingFigures& in = figures.incoming;
  const Mass none;
  if (in.drained && in.received) {
    const Measured unwrapped = *in.drained + or_zero(in.packaging) + or_zero(in.purge);
    doubt_above(facts, figures, Incoming::drained, unwrapped, Incoming::received, *in.received,
                none);
  }
  if (!in.invoice) return;
  const Mass slack = figures.settings.loss_limit * in.invoice->value();
  if (in.received) {
    doubt_above(facts, figures, Incoming::received, *in.received, Incoming::invoice, *in.invoice,
                slack);
  } else if (in.drained) {
    doubt_above(facts, figures, Incoming::drained, *in.drained, Incoming::invoice, *in.invoice,
                slack);
  }
}

}  // namespace tallyblock
