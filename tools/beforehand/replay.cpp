// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "language.hpp"
#include "picture/svg_canvas.hpp"
#include "procedure/title.hpp"
#include "replay.hpp"
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
std::string picture_of(Screen& screen, const Strings& t, const std::string& title) {
  picture::SvgCanvas canvas(width, height, title);
  const picture::Theme theme;
  stage::Hits hits;
  stage::Pen pen{canvas, theme, t, hits, {-1, -1}};
  canvas.rectangle({0, 0, width, height}, {theme.palette.page, {}});
  screen.draw(pen, {0, 0, width, height});
  return canvas.str();
}

void print_picture(std::vector<Played> played, const ReplayOptions& o, const Strings& t) {
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

void print_moments(const Played& played, const Strings& t, bool as_json) {
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

ordered_json figures_json(const stage::Figures& f) {
  return {{"total", f.total},
          {"anticipation", f.anticipation},
          {"idle", f.idle},
          {"sequence", f.sequence},
          {"chair_time_s", to_seconds(f.chair_time)},
          {"clinician_wait_s", to_seconds(f.clinician_wait)},
          {"requests", f.requests},
          {"errors", f.errors}};
}

std::string heading(const Played& played) {
  return played.who.empty() ? played.when : played.who + ", " + played.when;
}

}  // namespace

int play_in_window(std::vector<Played> played, Ms at) {
  stage::AppOptions options;
  options.strings = home_of_texts();
  options.settings = stage::settings_file();
  options.replay = std::move(played);
  options.replay_at = at;
  return stage::run_window(options);
}

void print_beside(const Played& first, const Played& second, bool as_json) {
  const auto t = texts_in("en");
  const auto a = scoring::score(*first.procedure, first.session, first.trainee());
  const auto b = scoring::score(*second.procedure, second.session, second.trainee());
  const auto needs = stage::differences(first, a, second, b, t);
  if (as_json) {
    auto list = ordered_json::array();
    for (const auto& need : needs)
      list.push_back({{"need", need.need}, {"first", need.first}, {"second", need.second}});
    fmt::print("{}\n", ordered_json{{"first", figures_json(stage::figures_of(a))},
                                    {"second", figures_json(stage::figures_of(b))},
                                    {"different", list}}
                           .dump(2, ' ', false, ordered_json::error_handler_t::replace));
    return;
  }
  fmt::print("{}1: {}\n2: {}\n\n", title_lines(*first.procedure), heading(first), heading(second));
  fmt::print("{:<22} {:>14} {:>14}\n", "", "1", "2");
  for (const auto& row : stage::compared(stage::figures_of(a), stage::figures_of(b), t))
    fmt::print("{:<22} {:>14} {:>14}  {}\n", row.name, row.now, row.then, row.change);
  fmt::print("\n{}\n", needs.empty() ? t("compare.needs.same") : t("compare.needs"));
  for (const auto& need : needs)
    fmt::print("  {}\n      {}\n", need.need, t("compare.both", {need.first, need.second}));
}

int replay(const ReplayOptions& o) {
  std::vector<Played> played{load(o.recording, o)};
  if (!o.beside.empty()) played.push_back(load(o.beside, o));
  if (o.format == "window") return play_in_window(std::move(played), moment(o));
  const bool as_json = o.format == "json";
  if (o.format == "svg")
    print_picture(std::move(played), o, texts_in("en"));
  else if (played.size() > 1)
    print_beside(played[0], played[1], as_json);
  else
    print_moments(played[0], texts_in("en"), as_json);
  return done;
}

}  // namespace beforehand::command
