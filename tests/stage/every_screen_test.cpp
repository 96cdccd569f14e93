// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Every screen of every tour, in both languages: no text on another, none outside the window, none
// smaller than 16 px at scale 1, no key without a text; and what is cut short is only what may be.
#include "every_screen.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

/// The texts that may be cut short, because all of it can be had otherwise: what a step is called,
/// on a bar of a chart. In a drill it is written whole by the clinician's name while it goes on; in
/// the briefing and the debrief in their lists; in the replay in the list of what happened; of two
/// side by side over each chart, at the moment that the arrows move; while a case is timed on the
/// button that ends it; and under every other chart, which then is there in words, too.
class MayBeCut {
 public:
  explicit MayBeCut(const std::string& language) {
    for (const auto& item : read_shelf(PROJECT_DIR "/scenarios", language)) {
      if (!item.procedure) continue;
      const auto& p = *item.procedure;
      for (const auto& step : p.steps) names_.insert(step.title);
    }
    names_.insert(own_step);
  }

  bool operator()(std::string_view cut) const {
    cut.remove_suffix(std::string_view("…").size());
    const auto number = std::min(cut.find_first_not_of("0123456789 "), cut.size());
    cut.remove_prefix(number);
    return std::any_of(names_.begin(), names_.end(), [&](const std::string& name) {
      if (name.starts_with(cut)) return number > 0 || cut.size() >= fewest;
      return name.find(" " + std::string(cut)) != std::string::npos;  // a bar's further line
    });
  }

 private:
  static constexpr std::size_t fewest = 6;  // letters: less than that tells nothing from another

  std::set<std::string> names_;
};

struct Walked {
  std::string tour, language;
};

class EveryScreen : public testing::TestWithParam<Walked> {};

TEST_P(EveryScreen, HasRoomForWhatItSays) {
  const std::string name = GetParam().tour, language = GetParam().language;
  const MayBeCut may_be_cut(language);
  int seen = 0;
  const auto look = [&](Program& program, const std::string& where) {
    ++seen;
    for (const auto& size : usual_looks) {
      const double scale = fitting_scale(size.scale, size.width, size.height, program.needs());
      const auto screen = look_at(program, size.width, size.height, scale);
      // The room's own words may stay smaller than the others, where it would find no place.
      const bool room =
          program.stand() == Program::Stand::drill || program.stand() == Program::Stand::replay;
      const double smallest = 16 * (room ? std::min(scale, 1.0) : scale);
      const auto place =
          where + " at " + std::to_string(size.height) + ", scale " + std::to_string(scale) + ": ";
      for (const auto& fault : screen.faults(smallest)) ADD_FAILURE() << place << fault;
      for (const auto& text : screen.clipped()) ADD_FAILURE() << place << "cut off: " << text;
      for (const auto& text : screen.cut())
        if (!may_be_cut(text)) ADD_FAILURE() << place << "cut short: " << text;
    }
    for (const auto& [key, shown] : program.strings().missing())
      ADD_FAILURE() << where << ": no text for " << key;
  };
  for (const auto& tour : every_screen())
    if (tour.name == name) tour.walk(language, look);
  EXPECT_GT(seen, 0);
}

std::vector<Walked> all_walks() {
  std::vector<Walked> walks;
  for (const auto& tour : every_screen())
    for (const char* language : {"en", "es"}) walks.push_back({tour.name, language});
  return walks;
}

INSTANTIATE_TEST_SUITE_P(Tours, EveryScreen, testing::ValuesIn(all_walks()), [](const auto& info) {
  auto name = info.param.tour + "_" + info.param.language;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace beforehand::stage
