// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/verify.hpp"

#include <algorithm>

#include "records/database.hpp"
#include "stores.hpp"

namespace beforehand::records {
namespace {

using test::drilled_tiny;
using test::Folder;
using Part = Person::Part;

// A store with three sessions and a sign-off, which somebody then edits by other means.
struct Tampered : testing::Test {
  Folder folder;
  std::string file = folder.file("records.db");
  Person ana, tess;
  std::vector<NewSession> saved;

  void SetUp() override {
    auto store = Store::open(file, test::ticking());
    ana = store.add_person(Part::trainee, "Ana Petrov");
    tess = store.add_person(Part::trainer, "Tess Arn");
    for (const auto* bot : {"absent", "late:3", "expert"}) {
      saved.push_back(drilled_tiny(ana, store.now(), bot));
      store.save(saved.back());
    }
    SignOff s;
    s.trainee = ana.id;
    s.trainer = tess.id;
    s.scenario = "tiny";
    s.note = "well done";
    store.sign(s);
  }

  void edit(const std::string& statement) {
    Database db(file);
    db.sql() << statement;
  }

  std::vector<Finding> findings(const VerifyOptions& o = {}) {
    return verify(Store::open(file, test::ticking()), o).findings;
  }

  void expect(Finding::Kind kind, const std::string& statement) {
    edit(statement);
    const auto found = findings();
    ASSERT_FALSE(found.empty()) << statement;
    EXPECT_EQ(word(found.front().kind), word(kind)) << found.front().what;
  }
};

TEST_F(Tampered, UntouchedIsSound) {
  const auto v = verify(Store::open(file, test::ticking()), {});
  EXPECT_TRUE(v.findings.empty()) << v.findings.front().what;
  EXPECT_EQ(v.sessions, 3);
  EXPECT_EQ(v.sign_offs, 1);
}

TEST_F(Tampered, AnEditedScoreIsFound) {
  expect(Finding::Kind::edited_record,
         "UPDATE session SET total = 99000 WHERE id = '" + saved[0].record.id + "'");
  const auto found = findings();
  const auto what = std::find_if(found.begin(), found.end(), [](const Finding& f) {
    return f.kind == Finding::Kind::edited_score;
  });
  ASSERT_NE(what, found.end());
  EXPECT_NE(what->what.find("total is stored as 99.000, the recording gives"), std::string::npos);
}

TEST_F(Tampered, AScoreEditedWithAllItsHashesIsFoundByPlayingItAgain) {
  // Somebody who knows the program saves a better score with a true chain.
  auto store = Store::open(file, test::ticking());
  auto forged = drilled_tiny(ana, store.now(), "absent", 9);
  forged.record.total = 100;
  store.save(forged);
  const auto found = findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].kind, Finding::Kind::edited_score) << found[0].what;
  EXPECT_EQ(found[0].record, forged.record.id);
}

TEST_F(Tampered, AnEditedRecordingIsFoundByPlayingItAgain) {
  auto store = Store::open(file, test::ticking());
  auto forged = drilled_tiny(ana, store.now(), "late:3", 9);
  const auto better = drilled_tiny(ana, store.now(), "expert", 10);
  // The events of one drill under the header of another.
  const auto header_end = forged.evidence.recording.find('\n');
  forged.evidence.recording =
      forged.evidence.recording.substr(0, header_end + 1) +
      better.evidence.recording.substr(better.evidence.recording.find('\n') + 1);
  store.save(forged);
  const auto found = findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].kind, Finding::Kind::edited_recording) << found[0].what;
}

TEST_F(Tampered, AMissingSessionIsFound) {
  edit("DELETE FROM evidence WHERE session = '" + saved[1].record.id + "'");
  expect(Finding::Kind::missing_record,
         "DELETE FROM session WHERE id = '" + saved[1].record.id + "'");
}

TEST_F(Tampered, ASessionRemovedWithItsLinkIsFound) {
  edit("DELETE FROM evidence WHERE session = '" + saved[1].record.id + "'");
  edit("DELETE FROM session WHERE id = '" + saved[1].record.id + "'");
  expect(Finding::Kind::broken_chain,
         "DELETE FROM link WHERE record = '" + saved[1].record.id + "'");
}

TEST_F(Tampered, ALinkMarkedErasedIsFound) {
  edit("DELETE FROM evidence WHERE session = '" + saved[1].record.id + "'");
  edit("DELETE FROM session WHERE id = '" + saved[1].record.id + "'");
  expect(Finding::Kind::missing_record,
         "UPDATE link SET erased = 1 WHERE record = '" + saved[1].record.id + "'");
}

TEST_F(Tampered, AnEditedSignOffIsFound) {
  expect(Finding::Kind::edited_record, "UPDATE sign_off SET note = 'brilliant'");
}

TEST_F(Tampered, AnEditedSummaryIsFound) {
  expect(Finding::Kind::edited_summary, "UPDATE summary SET best = 100000, passes = 9");
}

TEST_F(Tampered, ASessionGivenToSomebodyElseIsFound) {
  const auto bob = Store::open(file, test::ticking()).add_person(Part::trainee, "Bo Lind");
  expect(Finding::Kind::edited_record, "UPDATE session SET trainee = '" + bob.id + "'");
}

TEST_F(Tampered, ATruncatedChainIsFoundByTheHashNotedBefore) {
  VerifyOptions o;
  o.expect = Store::open(file, test::ticking()).head().hash;
  EXPECT_TRUE(findings(o).empty());
  // Whoever has the whole program can make a shorter chain that holds.
  edit("DELETE FROM sign_off");
  edit("DELETE FROM link WHERE position = 4");
  edit("UPDATE head SET position = 3, hash = (SELECT hash FROM link WHERE position = 3)");
  edit("UPDATE summary SET signed_off = 0");
  EXPECT_TRUE(findings().empty());
  ASSERT_EQ(findings(o).size(), 1u);
  EXPECT_EQ(findings(o)[0].kind, Finding::Kind::broken_chain);
}

TEST_F(Tampered, ErasingSomebodyKeepsTheChainWhole) {
  auto store = Store::open(file, test::ticking());
  const auto bob = store.add_person(Part::trainee, "Bo Lind");
  store.save(drilled_tiny(bob, store.now()));
  store.erase(ana.id);
  const auto v = verify(store, {});
  EXPECT_TRUE(v.findings.empty()) << v.findings.front().what;
  EXPECT_EQ(v.sessions, 1);
  EXPECT_EQ(v.erased, 4) << "three sessions and a sign-off";
  EXPECT_TRUE(store.sign_offs({}).empty());
}

TEST_F(Tampered, NothingOfAnErasedPersonIsLeftInTheFile) {
  {
    auto store = Store::open(file, test::ticking());
    store.erase(ana.id);
  }
  for (const auto& e : std::filesystem::directory_iterator(folder.path())) {
    const auto text = procedure::load_text(e.path().string());
    EXPECT_EQ(text.find("Ana Petrov"), std::string::npos) << e.path();
  }
}

}  // namespace
}  // namespace beforehand::records
