// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/observed_screen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "procedure/edit.hpp"
#include "procedure/reader.hpp"
#include "procedure/texts.hpp"
#include "procedure/with_card.hpp"
#include "stage/columns.hpp"
#include "stage/page.hpp"
#include "stage/scenario_copy.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_home, id_go };

std::string tenths(Ms t) { return fmt::format("{:.1f} s", to_seconds(t)); }

std::vector<std::string> tables_of(const std::string& folder, const std::string& id) {
  std::vector<std::string> files;
  std::error_code failed;
  for (const auto& entry : std::filesystem::directory_iterator(folder, failed)) {
    const auto name = entry.path().filename().string();
    if (name.starts_with(id + "-case-") && name.ends_with(".csv"))
      files.push_back(entry.path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

ObservedScreen::ObservedScreen(const procedure::Procedure& procedure, procedure::Files from,
                               const std::string& cases, std::string own)
    : procedure_(procedure),
      from_(std::move(from)),
      in_other_words_(procedure::in_every_language(from_)),
      own_(std::move(own)) {
  for (const auto& file : tables_of(cases, procedure.id)) read(file);
  steps_ = study::observed(figures_, names_, procedure);
}

void ObservedScreen::read(const std::string& file) {
  try {
    const auto text = procedure::load_text(file);
    const auto reading = study::read_case(text, std::filesystem::path(file).stem().string());
    if (has_errors(reading.problems)) {
      problems_.push_back(print(reading.problems, file, text));
      return;
    }
    names_.push_back(reading.timed.name);
    figures_.push_back(study::figures(reading.timed, &procedure_, in_other_words_));
  } catch (const std::exception& e) {
    problems_.push_back(e.what());
  }
}

void ObservedScreen::write() {
  if (steps_.empty()) return;
  try {
    const auto origin =
        fmt::format("{} case{} timed", names_.size(), names_.size() == 1 ? "" : "s");
    copy_ = write_copy(
        own_, study::with_observed(procedure::load_as_one(from_), procedure_, steps_, origin),
        from_);
  } catch (const std::exception& e) {
    problems_.push_back(e.what());
  }
}

// First into a copy, then the copy beside the original.
ObservedScreen::Outcome ObservedScreen::go_on() {
  if (!copy_.empty()) return Outcome::compare;
  write();
  return Outcome::stay;
}

ObservedScreen::Outcome ObservedScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_home) return Outcome::home;
    if (id == id_go) return go_on();
  }
  if (input.kind != Input::Kind::key) return Outcome::stay;
  if (input.key == Key::escape) return Outcome::home;
  if (input.key == Key::enter) return go_on();
  scroll_.follow(input.key);
  return Outcome::stay;
}

void ObservedScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  page(pen, box, scroll_, [&](Flow& flow) { write_table(pen, flow); },
       {{pen.t("debrief.home"), pen.t("key.escape"), id_home},
        {pen.t(copy_.empty() ? "improve.write" : "improve.compare"),
         pen.t("key.enter"),
         id_go,
         {true, true, !steps_.empty()}}});
}

void ObservedScreen::write_table(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.heading(t("observed.title", {procedure_.title}));
  for (const auto& problem : problems_) flow.text(problem, ink.danger);
  if (!copy_.empty()) flow.text(t("improve.written", {copy_}), ink.good, Weight::bold);
  if (steps_.empty()) return flow.text(t("observed.none"), ink.ink);
  flow.text(t("observed.about", {std::to_string(names_.size())}), ink.ink_soft);
  flow.gap(6);
  Columns table(pen, flow, {0.34, 0.07, 0.08, 0.08, 0.08, 0.19, 0.16});
  table.head({t("observed.step"), t("observed.seen"), t("observed.least"), t("observed.usual"),
              t("observed.most"), t("observed.between"), t("observed.next")});
  for (const auto& o : steps_) {
    const bool many = o.seen.size() > 1;
    table.row({procedure_.step(o.step).title, std::to_string(o.seen.size()),
               tenths(o.estimate.least), tenths(o.estimate.usual), tenths(o.estimate.most),
               many ? fmt::format("{:.1f}–{:.1f} ({:.0f} %)", o.usual_sure_s.low,
                                  o.usual_sure_s.high, 100 * o.usual_confidence)
                    : "–",
               many ? fmt::format("{:.0f} %", 100 * o.next_within) : "–"});
    for (const auto& d : o.seen)
      if (d.outlier) flow.under(t("observed.far_out", {tenths(d.takes), d.in_case}), ink.caution);
  }
  flow.gap(6);
  const bool any = std::any_of(steps_.begin(), steps_.end(),
                               [](const auto& step) { return step.seen.size() > 1; });
  flow.text(t(any ? "observed.sure" : "observed.once"), ink.ink_soft);
}

}  // namespace beforehand::stage
