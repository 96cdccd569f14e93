// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What `score` prints of a recording is what scoring finds in it.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "process.hpp"

namespace beforehand {
namespace {

using nlohmann::json;

const std::string late = PROJECT_DIR "/tests/recordings/class-ii-composite-late-4.jsonl";

json scored(const std::string& recording) {
  const auto done = run({"score", recording, "--format", "json"});
  EXPECT_EQ(done.code, 0) << done.err;
  return json::parse(done.out);
}

TEST(ScoreCommand, GivesTheFiguresBehindTheTotal) {
  const auto j = scored(late);
  EXPECT_LE(j["lead_s"]["p10"], j["lead_s"]["median"]);
  EXPECT_LE(j["wait_s"]["median"], j["wait_s"]["p90"]);
  double busy = 0, all = 0;
  for (const auto* kind : {"work_s", "cover_s", "waiting_s", "standby_s", "avoidable_idle_s"}) {
    const double s = j["time"]["assistant"][kind];
    all += s;
    if (kind == std::string("work_s") || kind == std::string("cover_s")) busy += s;
  }
  EXPECT_NEAR(all, j["chair_time_s"], 1e-6);
  EXPECT_NEAR(j["time"]["assistant"]["utilisation"], busy / all, 1e-9);
  std::size_t unasked = 0;
  for (const auto& need : j["needs"]) unasked += need["requested"] || need["helped"] ? 0 : 1;
  EXPECT_NEAR(j["anticipation_ratio"],
              static_cast<double>(unasked) / static_cast<double>(j["needs"].size()), 1e-9);
}

TEST(ScoreCommand, SaysWhatToChangeAndWhy) {
  const auto j = scored(late);
  const auto& change = j["debrief"]["change"];
  ASSERT_GE(change.size(), 1u);
  ASSERT_LE(change.size(), 3u);
  for (const auto& c : change) {
    EXPECT_NE(c["change"], "");
    EXPECT_NE(c["why"], "");
    EXPECT_GT(c["points"], 0.0);
  }
  const auto text = run({"score", late}).out;
  EXPECT_NE(text.find(change[0]["change"].get<std::string>().substr(0, 20)), std::string::npos);
  EXPECT_NE(text.find("Where the time went"), std::string::npos);
}

TEST(ScoreCommand, RefusesWhatIsNotThere) {
  EXPECT_EQ(run({"score", "no-such-file.jsonl"}).code, 1);
  EXPECT_EQ(run({"score"}).code, 2);
}

}  // namespace
}  // namespace beforehand
