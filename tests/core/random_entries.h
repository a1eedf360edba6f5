// Sealed entries of several writers, drawn from a seed: what random_session.h makes its sessions of.
#pragma once
#include <algorithm>
#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "make.h"

namespace tallyblock::testing {

struct RandomOptions {
  unsigned entries = 60;  // at least; the opening facts come on top
  unsigned writers = 3;
  bool awkward = false;
  bool voids = true;  // voids, corrections and moves of readings
};

class RandomEntries {
 public:
  RandomEntries(std::uint32_t seed, RandomOptions options) : random_(seed), options_(options) {
    for (unsigned i = 0; i < options_.writers; ++i) {
      writers_.push_back({drawn(kWriterLength), options_.awkward ? below(3) : 0});
    }
  }

  const std::vector<Entry>& entries() const { return entries_; }

  // From 0 to limit - 1; the same on every machine, unlike the standard distributions.
  unsigned below(unsigned limit) { return static_cast<unsigned>(random_() % limit); }
  bool one_in(unsigned n) { return below(n) == 0; }
  template <class List>
  const auto& any(const List& list) {
    return list[below(static_cast<unsigned>(list.size()))];
  }
  template <class List>
  void shuffle(List& list) {
    for (std::size_t i = list.size(); i > 1; --i) {
      std::swap(list[i - 1], list[below(static_cast<unsigned>(i))]);
    }
  }

 protected:
  struct Writer {
    std::string id;
    std::uint32_t counter;
  };
  std::string drawn(std::size_t length) {
    std::string text;
    while (text.size() < length) text += "0123456789abcdefghjkmnpqrstvwxyz"[below(32)];
    return text;
  }

  EntryId add(Body body, std::vector<EntryId> replaces = {}) {
    Writer& writer = writers_[below(options_.writers)];
    if (options_.awkward && one_in(15)) ++writer.counter;  // an entry that never arrived
    Entry entry;
    entry.id = {writer.id, ++writer.counter};
    // Two writers that have not met may draw the same place in the order.
    if (entries_.empty() || !one_in(6)) ++seq_;
    entry.seq = seq_;
    entry.time = {1760000000000 + static_cast<std::int64_t>(seq_) * 7000 + below(5000),
                  static_cast<int>(below(5)) * 60 - 120};
    if (!people_.empty() && !one_in(3)) entry.by = any(people_);
    entry.replaces = std::move(replaces);
    entry.body = std::move(body);
    entries_.push_back(sealed(std::move(entry)));
    return entries_.back().id;
  }

  void circle_of_voids(unsigned length) {
    Writer& writer = writers_[below(options_.writers)];
    const std::uint32_t first = writer.counter + 1;
    for (unsigned i = 0; i < length; ++i) {
      Entry entry;
      entry.id = {writer.id, ++writer.counter};
      entry.seq = ++seq_;
      entry.body = body::Void{{writer.id, first + (i + 1) % length}};
      entries_.push_back(sealed(std::move(entry)));
    }
  }

  void later_version(const std::string& kind, const std::string& fields) {
    Writer& writer = writers_[below(options_.writers)];
    const EntryId id{writer.id, ++writer.counter};
    const Result<Entry> entry = decode_entry_lenient(
        "{\"id\":\"" + to_text(id) + "\",\"kind\":\"" + kind +
        "\",\"seq\":" + std::to_string(++seq_) + ",\"t\":1760000000000,\"tz\":60," + fields + "}");
    if (entry) entries_.push_back(entry.value());
  }

  std::mt19937 random_;
  RandomOptions options_;
  std::vector<Writer> writers_;
  std::vector<Entry> entries_;
  std::uint64_t seq_ = 0;
  std::vector<EntryId> people_;
};

}  // namespace tallyblock::testing
