// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "picture/svg_canvas.hpp"
#include "procedure/title.hpp"
#include "stage/app.hpp"
#include "stage/settings.hpp"
#include "stage/side_by_side_screen.hpp"

namespace beforehand::command {
namespace {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using stage::Played;

constexpr double width = 1280, height = 720;

Played load(const std::string& path, const ReplayOptions& o) {
  auto r = load_recording(path, o.scenario, o.layers);
  const auto who = r.session.setup.trainee;
  return {std::make_shared<const procedure::Procedure>(std::move(r.procedure)),
          std::move(r.session), who, fs::path(path).filename().string()};
}

Ms moment(const ReplayOptions& o) { return Ms{std::llround(o.at_s * 1000)}; }

template <class Screen>
std::string picture_of(Screen& screen, const stage::Strings& t, const std::string& title) {
  picture::SvgCanvas canvas(width, height, title);
  const picture::Theme theme;
  stage::Hits hits;
  stage::Pen pen{canvas, theme, t, hits, {-1, -1}};
  canvas.rectangle({0, 0, width, height}, {theme.palette.page, {}});
  screen.draw(pen, {0, 0, width, height});
  return canvas.str();
}

void print_picture(std::vector<Played> played, const ReplayOptions& o, const stage::Strings& t) {
  const auto title = procedure::full_title(*played[0].procedure);
  if (played.size() > 1) {
    stage::SideBySideScreen screen(played[0], played[1], t, t("replay.close"));
    screen.point(moment(o));
    fmt::print("{}", picture_of(screen, t, title));
    return;
  }
  stage::ReplayScreen screen(std::move(played[0]), t, t("replay.close"));
  screen.show(moment(o));
  fmt::print("{}", picture_of(screen, t, title));
}

const char* word(stage::ReplayMoment::Kind kind) {
  static constexpr const char* words[] = {"step",   "action", "need", "request",
                                          "signal", "error",  "end"};
  return words[static_cast<int>(kind)];
}

void print_moments(const Played& played, const stage::Strings& t, bool as_json) {
  const auto& p = *played.procedure;
  const auto moments =
      stage::moments_of(played, scoring::score(p, played.session, played.trainee()), t);
  if (!as_json) {
    fmt::print("{}", title_lines(p));
    for (const auto& m : moments) fmt::print("{:>6}  {:<3} {}\n", clock_text(m.at), m.sign, m.text);
    return;
  }
  auto list = ordered_json::array();
  for (const auto& m : moments)
    list.push_back({{"at_s", to_seconds(m.at)}, {"kind", word(m.kind)}, {"text", m.text}});
  fmt::print("{}\n", ordered_json{{"scenario", p.id}, {"moments", list}}.dump(2));
}

}  // namespace

int replay(const ReplayOptions& o) {
  std::vector<Played> played{load(o.recording, o)};
  if (!o.beside.empty()) played.push_back(load(o.beside, o));
  const auto home = stage::home_folder();
  if (home.empty())
    throw Failure(environment_at_fault,
                  "the folder \"assets\" is missing: it belongs beside or above the program");
  if (o.format == "window") {
    stage::AppOptions options;
    options.strings = home + "/assets/strings";
    options.settings = stage::settings_file();
    options.replay = std::move(played);
    options.replay_at = moment(o);
    return stage::run_window(options);
  }
  const auto t = stage::Strings::load(home + "/assets/strings/en.txt");
  if (o.format == "svg")
    print_picture(std::move(played), o, t);
  else
    for (const auto& p : played) print_moments(p, t, o.format == "json");
  return done;
}

}  // namespace beforehand::command
