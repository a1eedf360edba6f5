// What is kept when storing fails: every act, every operation, every status, once and for ever.
//
// A case runs once without faults; every state its store went through is noted. Then it runs again for
// each operation N, status, and "once" or "for ever"; the page is killed and opened again. What is found
// then must be one of the noted states: before or after, never between. After a single fault and a
// retry it must be the last one.
#include <gtest/gtest.h>

#include <functional>
#include <set>

#include "kitchen.h"
#include "web/app/shelf/sample.h"

namespace tallyblock::test {
namespace {

std::string file_to_import() {
  SessionFile file = sample_sessions()[0];
  return write_session(file);
}
std::string backup_to_import() {
  std::string out = backup_header(2);
  for (std::size_t n = 0; n < 2; ++n) out += write_session(sample_sessions()[n]) + '\n';
  return out;
}

// One of whose sessions could not be read in has brought the other all the same.
std::string part_of_backup(std::size_t session) {
  return backup_header(1) + write_session(sample_sessions()[session]) + '\n';
}

struct Case {
  const char* name;
  std::function<void(Rig&)> act;
  std::vector<std::function<void(Rig&)>> parts = {};  // what may be left of several acts in one
};

const std::vector<Case>& cases() {
  static const std::vector<Case> all = {
      {"new session", [](Rig& r) { ask::new_session(*r); }},
      {"weigh in", [](Rig& r) { r.enter(FieldKind::drained, "26"); }},
      {"reading", [](Rig& r) { r.weigh("portions", "42"); }},
      {"void", [](Rig& r) { ask::void_entry(*r, first_reading(*r)); }},
      {"move", [](Rig& r) { ask::move_reading(*r, first_reading(*r), "usable-trim"); }},
      {"undo",
       [](Rig& r) {
         r.weigh("portions", "9");
         ask::undo(*r);
       }},
      {"price", [](Rig& r) { r.enter(FieldKind::price_per_mass, "9"); }},
      {"target", [](Rig& r) { r.enter(FieldKind::target, "90", "portions"); }},
      {"add pile", [](Rig& r) { ask::add_pile(*r, Role::usable_trim, "Stew", "stew"); }},
      {"set of piles", [](Rig& r) { ask::use_set(*r, "bird"); }},
      {"own pile", [](Rig& r) { r.name("new-pile", "Collar"); }},
      {"all is weighed", [](Rig& r) { ask::set_session_setting(*r, "all-weighed", "yes"); }},
      {"break down", [](Rig& r) { ask::break_down(*r, "portions", "Again", Process::breakdown); }},
      {"name", [](Rig& r) { r.name("piece", "Loin of pork"); }},
      {"person", [](Rig& r) { r.name("person", "Ada"); }},
      {"same again, open", [](Rig& r) { ask::same_again(*r, start().open); }},
      {"same again, other", [](Rig& r) { ask::same_again(*r, start().other); }},
      {"open other", [](Rig& r) { ask::open(*r, start().other); }},
      {"import", [](Rig& r) { r->on_file("a.json", file_to_import(), true); }},
      {"import backup",
       [](Rig& r) { r->on_file("b.jsonl", backup_to_import(), true); },
       {[](Rig& r) { r->on_file("b.jsonl", part_of_backup(0), true); },
        [](Rig& r) { r->on_file("b.jsonl", part_of_backup(1), true); }}},
      {"bin the open one", [](Rig& r) { ask::put_in_bin(*r, start().open); }},
      {"bin another", [](Rig& r) { ask::put_in_bin(*r, start().other); }},
      {"restore", [](Rig& r) { ask::take_from_bin(*r, start().binned); }},
      {"erase", [](Rig& r) { ask::erase(*r, start().binned); }},
      {"setting of the app", [](Rig& r) { ask::set_setting(*r, "currency", "CHF"); }},
      {"setting of the session", [](Rig& r) { ask::set_session_setting(*r, "loss-limit", "3 %"); }},
      {"load sample", [](Rig& r) { ask::load_sample(*r); }},
      {"remove sample",
       [](Rig& r) {
         ask::load_sample(*r);
         r.pump();
         ask::remove_sample(*r);
       }},
      {"timer",
       [](Rig& r) {
         ask::timer_start(*r);
         r.pump();
         r.host.utc += 90'000;
         ask::timer_pause(*r);
       }},
  };
  return all;
}

struct Seen {
  std::map<Contents, std::string> of;
  const std::string& operator()(const Contents& contents) {
    auto found = of.find(contents);
    if (found == of.end()) found = of.emplace(contents, seen(contents)).first;
    return found->second;
  }
};

// Nothing may be shown as kept that is not in the store.
void expect_nothing_claimed(Rig& rig) {
  const OpenSession* open = rig->session();
  if (open == nullptr) return;
  const auto& entries = rig.store.kept[Area::entries];
  bool all = true;
  for (const Entry* entry : open->set.in_order()) {
    const bool there = entries.count(open->id + '/' + to_text(entry->id)) != 0;
    if (is_kept(*rig, entry->id)) {
      EXPECT_TRUE(there) << "shown as kept, is not: " << entry->text;
    }
    all = all && there;
  }
  if (save_state(*rig) == SaveState::kept) {
    EXPECT_TRUE(all);
    EXPECT_EQ(rig->keeper().unsaved(), 0u);
  }
}

void run(const Case& c, Rig& rig) {
  c.act(rig);
  expect_nothing_claimed(rig);
  while (rig.store.pump_one(*rig)) expect_nothing_claimed(rig);
}

struct Outcome {
  std::set<std::string> states;  // every state that was ever in the store
  std::string last;
  std::size_t operations = 0;
};

Outcome without_faults(const Case& c, Seen& look) {
  Rig rig(start().contents, start().drawn);
  Outcome out;
  rig.store.set_fault({});
  rig.store.watch = [&](const Contents& contents) { out.states.insert(look(contents)); };
  out.states.insert(look(rig.store.kept));
  run(c, rig);
  out.last = look(rig.store.kept);
  out.operations = rig.store.operations();
  for (const auto& part : c.parts) {
    Rig other(start().contents, start().drawn);
    part(other);
    other.pump();
    out.states.insert(look(other.store.kept));
  }
  return out;
}

void with_fault(const Case& c, const Outcome& good, const Fault& fault, Seen& look) {
  SCOPED_TRACE(::testing::Message()
               << c.name << ", operation " << fault.from << ", status "
               << static_cast<int>(fault.status) << (fault.for_ever ? ", for ever" : ", once")
               << (fault.kept_anyway ? ", kept all the same" : ""));
  Rig rig(start().contents, start().drawn);
  rig.store.set_fault(fault);
  run(c, rig);
  EXPECT_EQ(good.states.count(look(rig.store.kept)), 1u) << "between two states";
  if (fault.for_ever) {
    for (int n = 0; n < 4; ++n) rig.wait(70'000);
    EXPECT_EQ(good.states.count(look(rig.store.kept)), 1u) << "between two states, later";
    expect_nothing_claimed(rig);
    if (save_state(*rig) == SaveState::failed) {
      EXPECT_NE(rig->keeper().trouble(), StoreStatus::ok);
    }
    return;
  }
  if (rig.store.load_failed()) {  // refused as a whole and said
    EXPECT_TRUE(rig->notice() && rig->notice()->is_error);
    return;
  }
  if (fault.status == StoreStatus::not_writer) rig->on_role(true);
  ask::retry_save(*rig);
  rig.pump();
  rig.wait(70'000);
  rig.pump();
  expect_nothing_claimed(rig);
  if (fault.status == StoreStatus::not_writer || fault.status == StoreStatus::newer) {
    // What came after it may have been refused; what was done is kept.
    EXPECT_EQ(rig->keeper().unsaved(), 0u);
    return;
  }
  EXPECT_EQ(rig->keeper().trouble(), StoreStatus::ok);
  EXPECT_EQ(look(rig.store.kept), good.last) << "after a retry everything is there";
}

class Storage : public ::testing::TestWithParam<std::size_t> {};

TEST_P(Storage, IsBeforeOrAfterAnActNeverBetweenWhateverFails) {
  const Case& c = cases()[GetParam()];
  Seen look;
  const Outcome good = without_faults(c, look);
  ASSERT_GE(good.operations, 1u);
  for (std::size_t n = 1; n <= good.operations; ++n) {
    for (const StoreStatus status : kFaults) {
      for (const bool for_ever : {false, true}) {
        with_fault(c, good, {n, status, for_ever, false}, look);
        if (status == StoreStatus::timeout) with_fault(c, good, {n, status, for_ever, true}, look);
      }
    }
  }
}

TEST_P(Storage, AKillAtAnyMomentLeavesAStateThatWas) {
  const Case& c = cases()[GetParam()];
  Seen look;
  const Outcome good = without_faults(c, look);
  for (const bool at_once : {false, true}) {
    for (std::size_t answers = 0; answers <= good.operations; ++answers) {
      Rig rig(start().contents, start().drawn);
      rig.store.at_once = at_once;
      rig.store.answers_left = answers;  // then the page is gone
      c.act(rig);
      rig.pump();
      rig.kill();
      EXPECT_EQ(good.states.count(look(rig.store.kept)), 1u) << c.name << " after " << answers;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Every, Storage, ::testing::Range<std::size_t>(0, cases().size()),
                         [](const auto& which) {
                           std::string name = cases()[which.param].name;
                           for (char& letter : name) {
                             if (letter == ' ' || letter == ',') letter = '_';
                           }
                           return name;
                         });

}  // namespace
}  // namespace tallyblock::test
