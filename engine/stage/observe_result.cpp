// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "picture/case_chart.hpp"
#include "stage/observe_screen.hpp"
#include "stage/page_chart.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

// What was seen: chart, times, who waited for whom, the order check and the notes.

namespace beforehand::stage {

void ObserveScreen::write_figures(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  const auto f = figures();
  flow.heading(t("observe.result", {title(pen)}));
  if (!problem_.empty()) flow.text(t("observe.unsaved", {problem_}), ink.danger);
  if (newer_) flow.text(t("newer.here"), ink.caution, Weight::bold, TextSize::label);
  if (f.work.empty()) return flow.text(t("observe.nothing"), ink.ink);
  const auto chart = picture::case_chart(f, "");
  auto view = picture::whole(chart);
  view.words = chart_words(t);
  write_chart(pen, flow, chart, view);
  flow.text(t("observe.time", {duration_text(f.chair_time), duration_text(f.both_idle)}), ink.ink);
  for (std::size_t i = 0; i < f.lanes.size(); ++i)
    flow.item("•",
              t("observe.split",
                {f.lanes[i], duration_text(f.time[i].work), duration_text(f.time[i].cover),
                 duration_text(f.time[i].waiting), duration_text(f.time[i].standby)}),
              ink.ink);
  flow.gap(10);
  const bool waits =
      std::any_of(f.apart.begin(), f.apart.end(), [](const auto& a) { return a.waiting; });
  if (waits) flow.heading(t("observe.waits"));
  for (const auto& a : f.apart)
    if (a.waiting)
      flow.item("•",
                t("observe.wait",
                  {clock_text(a.from), f.lanes[a.lane], duration_text(a.to - a.from), a.for_what}),
                ink.ink);
  if (f.checked) write_order(pen, flow, f);
  write_notes(pen, flow);
  flow.gap(10);
  flow.heading(t("chart.in-words"));
  write_in_words(pen, flow, chart);
}

void ObserveScreen::write_order(Pen& pen, Flow& flow, const study::CaseFigures& f) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.gap(10);
  flow.heading(t("observe.order", {std::to_string(f.order.kept), std::to_string(f.order.actions),
                                   std::to_string(f.order.steps)}));
  int number = 0;
  const auto tell = [&](const char* key, const std::vector<std::size_t>& which) {
    for (const auto i : which)
      flow.item(std::to_string(++number), t(key, {clock_text(f.work[i].start), f.work[i].label}),
                ink.ink);
  };
  tell("observe.out_of_order", f.out_of_order);
  tell("observe.repeated", f.repeated);
  tell("observe.extra", f.extra);
  for (const auto s : f.omitted)
    flow.item("–", t("observe.omitted", {protocol_->step(s).title}), ink.ink_soft);
  for (const auto& l : f.lags)
    flow.item("•",
              t(l.off < Ms{0} ? "observe.too_soon" : "observe.too_late",
                {protocol_->step(l.step).title, protocol_->step(l.before).title,
                 duration_text(l.off < Ms{0} ? -l.off : l.off)}),
              ink.ink);
}

void ObserveScreen::write_notes(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.gap(10);
  auto notes = log_.taps();
  std::erase_if(notes, [](const study::Tap& tap) { return tap.kind != study::Tap::Kind::note; });
  if (!notes.empty()) flow.heading(t("observe.notes"));
  for (const auto& tap : notes) flow.item("•", clock_text(tap.at) + "  " + tap.text, ink.ink);
}

}  // namespace beforehand::stage
