// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What can go wrong with a store's file: each time a message that says what is safe and what to do,
// and nothing overwritten.
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "records/queue.hpp"
#include "records/schema.hpp"
#include "records/verify.hpp"
#include "stores.hpp"

namespace beforehand::records {
namespace {

using test::drilled_tiny;
using test::Folder;
using Part = Person::Part;
using Kind = StoreError::Kind;

std::string bytes_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

struct Trouble : testing::Test {
  Folder folder;
  std::string file = folder.file("records.db");
  Person ana;
  NewSession drill;

  void SetUp() override {
    auto store = Store::open(file, test::ticking());
    ana = store.add_person(Part::trainee, "Ana Petrov");
    drill = drilled_tiny(ana, store.now());
    store.save(drill);
  }

  static void expect(Kind kind, const std::string& words, const std::function<void()>& work) {
    try {
      work();
      FAIL() << "nothing was said";
    } catch (const StoreError& e) {
      EXPECT_EQ(static_cast<int>(e.kind), static_cast<int>(kind)) << e.what();
      EXPECT_NE(std::string(e.what()).find(words), std::string::npos) << e.what();
    }
  }

  void expect_refused_untouched(Kind kind, const std::string& words) {
    const auto before = bytes_of(file);
    expect(kind, words, [&] { Store::open(file, test::ticking()); });
    EXPECT_EQ(bytes_of(file), before);
  }

  // In a process of its own, so that limits and rights end with it; 0 when `work` returned true.
  static int in_a_child(const std::function<bool()>& work) {
    const pid_t child = fork();
    if (child == 0) _exit(work() ? 0 : 1);
    int status = 0;
    waitpid(child, &status, 0);
    return status;
  }
};

TEST_F(Trouble, ANewerVersionIsNotTouched) {
  Database(file).sql() << "UPDATE store SET value = '99' WHERE name = 'version'";
  Database(file).sql() << "PRAGMA wal_checkpoint(TRUNCATE)";
  expect_refused_untouched(Kind::newer, "update this program");
}

TEST_F(Trouble, ADamagedFileIsNotTouched) {
  std::fstream out(file, std::ios::in | std::ios::out | std::ios::binary);
  for (int page = 1; page < 20; ++page) {
    out.seekp(page * 4096 + 8);
    out << std::string(2000, 'x');
  }
  out.close();
  expect_refused_untouched(Kind::damaged, "newest backup");
}

TEST_F(Trouble, AFileThatIsNoDatabaseIsNotTouched) {
  std::ofstream(file, std::ios::trunc) << "Dear diary, this is no database, and rather long.\n";
  expect_refused_untouched(Kind::damaged, "is no store");
}

TEST_F(Trouble, AnotherProgramsDatabaseIsNotTouched) {
  std::filesystem::remove(file);
  Database(file).sql() << "CREATE TABLE recipes (id INTEGER)";
  expect_refused_untouched(Kind::damaged, "another program");
}

TEST_F(Trouble, ALockedStoreSaysSo) {
  auto store = Store::open(file, test::ticking(), std::chrono::milliseconds{100});
  Database other(file);
  other.sql() << "BEGIN IMMEDIATE";
  expect(Kind::busy, "locked by another program",
         [&] { store.save(drilled_tiny(ana, store.now())); });
  EXPECT_EQ(store.sessions({}).size(), 1u) << "it can be read meanwhile";
  other.sql() << "ROLLBACK";
  EXPECT_TRUE(store.save(drilled_tiny(ana, store.now())));
}

TEST_F(Trouble, AReadOnlyStoreSaysSo) {
  namespace fs = std::filesystem;
  const auto status = in_a_child([&] {
    // Root may write everything; somebody else may not.
    if (geteuid() == 0 && setuid(65534) != 0) return false;
    try {
      if (geteuid() != 65534) fs::permissions(file, fs::perms::owner_read);
      if (geteuid() != 65534)
        fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec);
      auto store = Store::open(file, test::ticking());
      store.add_person(Part::trainee, "Bo Lind");
      return false;
    } catch (const StoreError& e) {
      std::fprintf(stderr, "%s\n", e.what());
      return e.kind == Kind::read_only;
    }
  });
  fs::permissions(folder.path(), fs::perms::owner_all);
  fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(status, 0);
  EXPECT_EQ(Store::open(file, test::ticking()).people(Part::trainee).size(), 1u);
}

// A limit on the size of files stands for the end of the disk.
bool fill_up(const std::string& file, const Person& who) {
  auto store = Store::open(file, test::ticking());
  signal(SIGXFSZ, SIG_IGN);
  const rlimit limit{2'000'000, 2'000'000};
  setrlimit(RLIMIT_FSIZE, &limit);
  for (int i = 0; i < 2000; ++i) {
    try {
      store.save(drilled_tiny(who, store.now(), "late:1", static_cast<std::uint64_t>(i)));
    } catch (const StoreError& e) {
      if (e.kind != Kind::full) std::fprintf(stderr, "%s\n", e.what());
      return e.kind == Kind::full;
    }
  }
  return false;
}

TEST_F(Trouble, AFullDiskLosesNothingThatWasSaved) {
  EXPECT_EQ(in_a_child([&] { return fill_up(file, ana); }), 0);
  auto store = Store::open(file, test::ticking());
  EXPECT_GT(store.sessions({}).size(), 10u);
  EXPECT_TRUE(verify(store, {}).findings.empty());
  EXPECT_TRUE(store.save(drilled_tiny(ana, store.now()))) << "and it goes on when there is room";
}

TEST_F(Trouble, ABackupIsAWholeStoreAndOverwritesNothing) {
  const auto copy = folder.file("copy.db");
  auto store = Store::open(file, test::ticking());
  store.backup(copy);
  EXPECT_TRUE(verify(Store::open(copy, test::ticking()), {}).findings.empty());
  const auto before = bytes_of(copy);
  expect(Kind::unreachable, "no backup was made", [&] { store.backup(copy); });
  EXPECT_EQ(bytes_of(copy), before);
}

TEST_F(Trouble, MigrationsBackUpFirstAndAreAllOrNothing) {
  auto list = migrations();
  const int next = list.back().to + 1;
  list.push_back({next, {"CREATE TABLE more (id TEXT PRIMARY KEY)", "CREATE TABLE more (oops)"}});
  {
    Database db(file);
    EXPECT_THROW(bring_up_to_date(db, list, "id"), StoreError);
    EXPECT_EQ(schema_version(db), next - 1);
  }
  EXPECT_EQ(Store::open(file, test::ticking()).sessions({}).size(), 1u);
  list.back().statements.pop_back();
  {
    Database db(file);
    bring_up_to_date(db, list, "id");
    EXPECT_EQ(schema_version(db), next);
  }
  const auto backup = file + ".before-version-" + std::to_string(next);
  EXPECT_EQ(Store::open(backup, test::ticking()).sessions({}).size(), 1u);
  EXPECT_TRUE(std::filesystem::exists(backup + ".2")) << "the second try kept the first one's copy";
}

// A store as it was before what is done around a drill was kept.
TEST_F(Trouble, AStoreOfVersionTwoIsBackedUpAndGoesOnWhole) {
  Database(file).sql() << "ALTER TABLE evidence DROP COLUMN around";
  Database(file).sql() << "UPDATE store SET value = '2' WHERE name = 'version'";
  auto store = Store::open(file, test::ticking());
  EXPECT_TRUE(std::filesystem::exists(file + ".before-version-3"));
  EXPECT_TRUE(store.evidence(drill.record.id).around.empty());
  auto more = drilled_tiny(ana, store.now());
  more.evidence.around.set_up = TaskRecord{1, 2, Ms{9'000}, {}};
  EXPECT_TRUE(store.save(more));
  EXPECT_TRUE(verify(store, {}).findings.empty());
  EXPECT_EQ(store.sessions({}).size(), 2u);
}

TEST_F(Trouble, AnAddressOfAnotherKindIsRefusedAndMakesNothing) {
  namespace fs = std::filesystem;
  for (const std::string address :
       {"sqlite:" + file, std::string("mysql://server/db"), std::string("http://127.0.0.1/records"),
        std::string("sqlite:"), std::string("sqlite://")}) {
    expect(Kind::refused, "Name a file", [&] { Store::open(address, test::ticking()); });
    expect(Kind::refused, "Name a file", [&] { store_address(address, folder.path()); });
    EXPECT_FALSE(fs::exists(address.substr(0, address.find(':') + 1))) << address;
  }
  EXPECT_EQ(store_address("sqlite://" + file, folder.path()), file);
  EXPECT_EQ(Store::open("sqlite://" + file, test::ticking()).address(), file);
  EXPECT_EQ(Store::open("sqlite://" + file, test::ticking()).sessions({}).size(), 1u);
  setenv("BEFOREHAND_STORE", ("sqlite://" + file).c_str(), 1);
  EXPECT_EQ(store_address("", folder.path()), file);
  setenv("BEFOREHAND_STORE", "sqlite3:x", 1);
  expect(Kind::refused, "sqlite3: is none", [&] { store_address("", folder.path()); });
  unsetenv("BEFOREHAND_STORE");
  EXPECT_EQ(store_address("./notes:2.db", ""), "./notes:2.db");
  EXPECT_EQ(store_address("postgresql://a@b/c", ""), "postgresql://a@b/c");
}

TEST(Ids, GrowAlsoWhenTheClockJumpsBack) {
  IdMaker maker;
  std::string last;
  for (int i = 0; i < 5000; ++i) {
    const auto at =
        Moment{std::chrono::milliseconds{1'772'442'000'000 - (i > 2000 ? 3'600'000 : 0) + i / 100}};
    const auto id = maker.make(at);
    EXPECT_TRUE(is_id(id)) << id;
    ASSERT_GT(id, last);
    last = id;
  }
}

// RFC 9562, appendix A.6: the example of version 7, Unix time 1645557742000 ms.
TEST(Ids, CarryTheTimeAsTheStandardSays) {
  const auto id = IdMaker().make(Moment{std::chrono::milliseconds{1'645'557'742'000}});
  EXPECT_EQ(id.substr(0, 15), "017f22e2-79b0-7") << "017F22E2-79B0-7CC3-98C4-DC0C0C07398F";
  EXPECT_TRUE(std::string("89ab").find(id[19]) != std::string::npos) << id;
}

}  // namespace
}  // namespace beforehand::records
