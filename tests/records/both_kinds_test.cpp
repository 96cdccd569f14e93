// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What a store does, on a file and on a server: one code path, tested on both.
#include <sys/wait.h>

#include <set>

#include "records/database.hpp"
#include "records/verify.hpp"
#include "server.hpp"
#include "stores.hpp"

namespace beforehand::records {
namespace {

using test::drilled_tiny;
using Part = Person::Part;

struct BothKinds : testing::TestWithParam<std::string> {
  test::Folder folder;
  int made = 0;
  void SetUp() override {
    if (GetParam() == "postgresql" && !test::Server::own().there()) {
      if (test::Server::own().why_not().find("installed") == std::string::npos)
        FAIL() << test::Server::own().why_not();
      GTEST_SKIP() << test::Server::own().why_not();
    }
  }
  std::string address() {
    return GetParam() == "postgresql" ? test::Server::own().new_database()
                                      : folder.file(std::to_string(++made) + ".db");
  }
  static Store open(const std::string& address) { return Store::open(address, test::ticking()); }
};
INSTANTIATE_TEST_SUITE_P(Store, BothKinds, testing::Values("sqlite", "postgresql"),
                         [](const auto& info) { return info.param; });

TEST_P(BothKinds, ADrillComesBackAsItWas) {
  const auto at = address();
  auto store = open(at);
  const auto ana = store.add_person(Part::trainee, "Ana Petrov");
  const auto saved = drilled_tiny(ana, store.now(), "late:2", 7);
  EXPECT_TRUE(store.save(saved));
  EXPECT_FALSE(store.save(saved));
  const auto again = open(at);
  const auto s = again.session(saved.record.id);
  ASSERT_TRUE(s);
  EXPECT_EQ(s->total, saved.record.total);
  EXPECT_EQ(s->anticipation, saved.record.anticipation);
  EXPECT_EQ(s->outcomes, saved.record.outcomes);
  EXPECT_EQ(s->started, saved.record.started);
  EXPECT_EQ(again.evidence(s->id).needs, saved.evidence.needs);
  EXPECT_EQ(again.evidence(s->id).recording, saved.evidence.recording);
  EXPECT_TRUE(verify(again, {}).findings.empty());
}

TEST_P(BothKinds, WhatWasDoneAroundADrillIsKeptHeldByTheChainAndMerged) {
  const auto at = address();
  auto store = open(at);
  const auto ana = store.add_person(Part::trainee, "Ana Petrov");
  auto drill = drilled_tiny(ana, store.now());
  drill.evidence.around.set_up =
      TaskRecord{3, 5, Ms{41'000}, {{"missing", {"Mirror"}}, {"out-of-order", {"Probe", "Brush"}}}};
  drill.evidence.around.turnover =
      TaskRecord{6, 7, Ms{20'500}, {{"wrong", {"Needle", "waste", "sharps"}}}};
  store.save(drill);
  store.save(drilled_tiny(ana, store.now()));
  EXPECT_EQ(store.evidence(drill.record.id).around, drill.evidence.around);
  EXPECT_TRUE(verify(store, {}).findings.empty());
  auto other = open(address());
  other.merge(store);
  EXPECT_EQ(other.evidence(drill.record.id).around, drill.evidence.around);
  Database(at).sql() << "UPDATE evidence SET around = '' WHERE session = '" + drill.record.id + "'";
  const auto found = verify(store, {}).findings;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].record, drill.record.id);
}

TEST_P(BothKinds, NamesThatAreSqlMarkupOrFormulasAreJustNames) {
  auto store = open(address());
  const std::vector<std::string> names{"Robert'); DROP TABLE session;--",
                                       "<script>alert(1)</script>",
                                       "=HYPERLINK(\"x\",\"y\")",
                                       "100% _sure_ \\ %",
                                       "O'Brien :name :1",
                                       "Łucja Ñandú Ωmega Жук",
                                       "name\u202Ewith override"};
  for (const auto& name : names) {
    const auto p = store.add_person(Part::trainee, name);
    store.save(drilled_tiny(p, store.now()));
    EXPECT_EQ(store.person(Part::trainee, name).id, p.id) << name;
    SummaryQuery q;
    q.search = name;
    const auto found = store.summaries(q);
    ASSERT_EQ(found.size(), 1u) << name;
    EXPECT_EQ(found[0].trainee_name, name);
  }
  SummaryQuery in_any_case;
  in_any_case.search = "ŁUCJA ñanDÚ ωM";
  EXPECT_EQ(store.summaries(in_any_case).size(), 1u);
  EXPECT_EQ(store.sessions({}).size(), names.size());
  EXPECT_TRUE(verify(store, {}).findings.empty());
  for (const auto* bad : {"", "   ", "tab\there", "new\nline", "bro\xffken"})
    EXPECT_THROW(store.add_person(Part::trainee, bad), StoreError) << bad;
  EXPECT_THROW(store.add_person(Part::trainee, "O'BRIEN :NAME :1"), StoreError) << "taken";
  EXPECT_THROW(store.person(Part::trainee, "Anna"), StoreError);
}

TEST_P(BothKinds, ASignOffCanBeRevokedAndStays) {
  auto store = open(address());
  const auto ana = store.add_person(Part::trainee, "Ana Petrov");
  const auto tess = store.add_person(Part::trainer, "Tess Arn");
  store.save(drilled_tiny(ana, store.now()));
  SignOff s;
  s.trainee = ana.id;
  s.trainer = tess.id;
  s.scenario = "tiny";
  s.note = "calm and quick";
  s = store.sign(s);
  EXPECT_TRUE(store.summaries({}).front().signed_off);
  store.revoke(s.id, tess.id, "signed for the wrong person");
  EXPECT_FALSE(store.summaries({}).front().signed_off);
  EXPECT_THROW(store.revoke(s.id, tess.id, "again"), StoreError);
  const auto all = store.sign_offs(ana.id);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_FALSE(all[0].stands());
  EXPECT_EQ(all[0].note, "calm and quick");
  EXPECT_EQ(all[0].trainer_name, "Tess Arn");
  EXPECT_THROW(store.revoke(s.id, ana.id, "by a trainee"), StoreError);
  EXPECT_TRUE(verify(store, {}).findings.empty());
}

TEST_P(BothKinds, TwoStoresAreMergedAndAnErasedPersonDoesNotComeBack) {
  auto here = open(address()), there = open(address());
  const auto ana = here.add_person(Part::trainee, "Ana Petrov");
  here.save(drilled_tiny(ana, here.now()));
  here.erase(ana.id);
  const auto bo = there.add_person(Part::trainee, "Bo Lind");
  const auto tess = there.add_person(Part::trainer, "Tess Arn", "a passcode");
  for (const auto* bot : {"absent", "expert"}) there.save(drilled_tiny(bo, there.now(), bot));
  SignOff s;
  s.trainee = bo.id;
  s.trainer = tess.id;
  s.scenario = "tiny";
  s = there.sign(s);
  there.revoke(s.id, tess.id, "too soon");
  Note n;
  n.trainee = bo.id;
  n.trainer = tess.id;
  n.text = "steady hands";
  there.add_note(n);
  const auto m = here.merge(there);
  EXPECT_EQ(m.people, 2);
  EXPECT_EQ(m.sessions, 2);
  EXPECT_EQ(m.sign_offs, 1);
  EXPECT_EQ(m.notes, 1);
  EXPECT_EQ(here.merge(there).sessions, 0) << "twice is once";
  EXPECT_FALSE(here.sign_offs(bo.id).at(0).stands());
  EXPECT_FALSE(here.person(Part::trainer, "Tess Arn").locked)
      << "a passcode is set where it counts";
  EXPECT_EQ(here.summaries({}).at(0).completed, 2);
  EXPECT_TRUE(verify(here, {}).findings.empty());
  // The other way round: a copy made before the erasure knows Ana still.
  auto copy = open(address());
  copy.merge(here);
  here.erase(bo.id);
  EXPECT_EQ(here.merge(copy).sessions, 0);
  EXPECT_TRUE(here.sessions({}).empty());
  EXPECT_EQ(copy.merge(here).erased_there.size(), 1u);
}

TEST_P(BothKinds, EditedSessionsAreNotMerged) {
  const auto at = address();
  auto here = open(address()), there = open(at);
  const auto bo = there.add_person(Part::trainee, "Bo Lind");
  const auto good = drilled_tiny(bo, there.now()), bad = drilled_tiny(bo, there.now(), "absent");
  there.save(good);
  there.save(bad);
  Database(at).sql() << "UPDATE session SET total = 99000 WHERE id = '" + bad.record.id + "'";
  const auto m = here.merge(there);
  EXPECT_EQ(m.sessions, 1);
  EXPECT_EQ(m.damaged, std::vector<Id>{bad.record.id});
}

TEST_P(BothKinds, WrongPasscodesSlowDown) {
  auto now = Moment{std::chrono::milliseconds{1'772'442'000'000}};
  auto store = Store::open(address(), [&now] { return now; });
  const auto tess = store.add_person(Part::trainer, "Tess Arn", "right one");
  EXPECT_TRUE(store.try_passcode(tess.id, "right one").right);
  for (int i = 0; i < 3; ++i) EXPECT_FALSE(store.try_passcode(tess.id, "wrong").right);
  const auto early = store.try_passcode(tess.id, "right one");
  EXPECT_FALSE(early.right);
  EXPECT_EQ(early.wait.count(), 2);
  now += std::chrono::seconds{2};
  EXPECT_FALSE(store.try_passcode(tess.id, "wrong").right);
  EXPECT_EQ(store.try_passcode(tess.id, "right one").wait.count(), 4) << "doubled";
  now -= std::chrono::hours{24};
  EXPECT_GT(store.try_passcode(tess.id, "right one").wait.count(), 0)
      << "no way round by the clock";
  now += std::chrono::hours{25};
  EXPECT_TRUE(store.try_passcode(tess.id, "right one").right);
  EXPECT_THROW(store.set_passcode(tess.id, "short"), std::runtime_error);
}

// Every session is saved by two of the writers.
void write_with_others(const std::string& address, const std::vector<NewSession>& all,
                       std::size_t writer, std::size_t writers) {
  auto store = Store::open(address, test::ticking());
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i % writers == writer || (i + 1) % writers == writer) store.save(all[i]);
}

TEST_P(BothKinds, ManyWritersLoseAndDoubleNothing) {
  // Eight on a server; two windows and a command on a file.
  const std::size_t writers = GetParam() == "postgresql" ? 8 : 3;
  const auto at = address();
  std::vector<NewSession> all;
  {
    auto store = open(at);
    const auto ana = store.add_person(Part::trainee, "Ana Petrov");
    const auto bo = store.add_person(Part::trainee, "Bo Lind");
    for (int i = 0; i < 40; ++i) all.push_back(drilled_tiny(i % 2 ? ana : bo, store.now()));
  }
  for (std::size_t w = 0; w < writers; ++w) {
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child > 0) continue;
    try {
      write_with_others(at, all, w, writers);
      _exit(0);
    } catch (const std::exception& e) {
      std::fprintf(stderr, "writer %zu: %s\n", w, e.what());
      _exit(1);
    }
  }
  for (std::size_t w = 0; w < writers; ++w) {
    int status = 0;
    wait(&status);
    EXPECT_EQ(status, 0);
  }
  const auto store = open(at);
  std::set<Id> ids;
  for (const auto& s : store.sessions({})) ids.insert(s.id);
  EXPECT_EQ(ids.size(), all.size());
  int counted = 0;
  for (const auto& s : store.summaries({})) counted += s.sessions;
  EXPECT_EQ(counted, 40);
  EXPECT_EQ(store.head().position, 40);
  EXPECT_TRUE(verify(store, {}).findings.empty());
}

}  // namespace
}  // namespace beforehand::records
