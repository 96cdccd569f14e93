// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stores.hpp"

namespace beforehand::records {
namespace {

using test::drilled_tiny;
using test::Folder;
using Part = Person::Part;

TEST(Store, ASavedDrillIsReadBackAsItWas) {
  Folder folder;
  const auto file = folder.file("records.db");
  NewSession saved;
  {
    auto store = Store::open(file, test::ticking());
    const auto ana = store.add_person(Part::trainee, "Ana Petrov");
    saved = drilled_tiny(ana, store.now(), "late:3", 7);
    EXPECT_TRUE(store.save(saved));
    EXPECT_FALSE(store.save(saved)) << "twice is once";
  }
  auto store = Store::open(file, test::ticking());
  const auto all = store.sessions({});
  ASSERT_EQ(all.size(), 1u);
  const auto& s = all.front();
  EXPECT_EQ(s.id, saved.record.id);
  EXPECT_EQ(s.scenario, "tiny");
  EXPECT_EQ(s.total, saved.record.total);
  EXPECT_EQ(s.outcomes, saved.record.outcomes);
  EXPECT_FALSE(s.outcomes.empty());
  EXPECT_TRUE(s.complete);
  const auto evidence = store.evidence(s.id);
  EXPECT_EQ(evidence.recording, saved.evidence.recording);
  EXPECT_EQ(evidence.needs, saved.evidence.needs);
  EXPECT_EQ(store.scenario(s.scenario_hash).text, test::tiny_text());
}

TEST(Store, ANewOneHasNothingToBackUp) {
  Folder folder;
  const auto file = folder.file("records.db");
  Store::open(file, test::ticking());
  for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
    EXPECT_TRUE(entry.path().filename().string().find("before-version") == std::string::npos)
        << entry.path();
}

TEST(Store, TheSummaryFollowsTheSessions) {
  Folder folder;
  auto store = Store::open(folder.file("records.db"), test::ticking());
  const auto ana = store.add_person(Part::trainee, "Ana Petrov");
  const auto bob = store.add_person(Part::trainee, "Bo Lind");
  for (const auto* bot : {"absent", "late:3", "expert"})
    store.save(drilled_tiny(ana, store.now(), bot));
  store.save(drilled_tiny(bob, store.now(), "absent"));
  SummaryQuery query;
  query.order = SummaryQuery::Order::last;
  query.descending = query.with_history = true;
  const auto rows = store.summaries(query);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].trainee_name, "Ana Petrov");
  EXPECT_EQ(rows[0].sessions, 3);
  EXPECT_EQ(rows[0].completed, 3);
  EXPECT_EQ(rows[0].assessed_passes, 1);
  EXPECT_EQ(rows[0].best, rows[0].last);
  EXPECT_LT(rows[0].first, rows[0].last);
  EXPECT_GT(rows[0].trend, 0);
  ASSERT_FALSE(rows[0].history.empty());
  EXPECT_EQ(rows[0].history[0].outcomes.size(), 3u);
  EXPECT_EQ(rows[0].history[0].outcomes.back(), '1');
  EXPECT_EQ(rows[1].trend, 0);
}

}  // namespace
}  // namespace beforehand::records
