// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/chart_build.hpp"

#include <algorithm>

#include "procedure/title.hpp"

namespace beforehand::picture {
namespace {

using drill::StepState;
using drill::World;
using procedure::Procedure;
using procedure::Step;
using scoring::Score;
using scoring::Stretch;

Activity activity_of(Stretch::Kind kind) {
  switch (kind) {
    case Stretch::Kind::work:
      return Activity::work;
    case Stretch::Kind::cover:
      return Activity::cover;
    case Stretch::Kind::waiting:
      return Activity::waiting;
    case Stretch::Kind::standby:
      return Activity::standby;
    case Stretch::Kind::avoidable:
      return Activity::avoidable_idle;
  }
  return Activity::work;
}

std::string label_of(const Procedure& p, StepIx step, ActionIx action, const Strings& t) {
  if (step) return p.step(step).title;
  return action ? procedure::title_of(p, action, t) : std::string();
}

std::vector<Lane> lanes_of(const Procedure& p) {
  std::vector<Lane> lanes;
  for (const procedure::Person& person : p.people) lanes.push_back({person.name, {}, {}, {}, {}});
  return lanes;
}

/// Who served a need, by the events; by the plan where none says.
PersonIx server_of(const Procedure& p, const drill::Session& session,
                   const scoring::NeedScore& need) {
  for (const drill::Event& e : session.events) {
    const bool same = e.step == need.step && e.value == need.need;
    if (e.what == drill::What::need_met && same && e.person) return e.person;
  }
  const procedure::Need& n = p.step(need.step).needs[need.need];
  return n.from ? p.step(n.from).by.front() : PersonIx{};
}

PersonIx doer_of(const Procedure& p, const drill::Session& session, StepIx step) {
  for (const drill::Event& e : session.events) {
    if (e.what == drill::What::step_started && e.step == step) return e.person;
  }
  return p.step(step).by.front();
}

void add_links(ActivityChart& chart, const Procedure& p, const drill::Session& session,
               const Score& score) {
  for (const scoring::NeedScore& need : score.needs) {
    const PersonIx server = server_of(p, session, need);
    const PersonIx doer = doer_of(p, session, need.step);
    if (need.helped || need.ready_at == never || !server || server == doer) continue;
    chart.links.push_back(
        {server.at(), doer.at(), need.ready_at, need.need_at + need.wait, need.wait.count() > 0});
  }
}

void add_marks(ActivityChart& chart, const Procedure& p, const drill::Session& session,
               const Score& score, PersonIx trainee) {
  std::size_t asked = 0;
  for (const drill::Event& e : session.events) {
    if (e.what == drill::What::asked && e.person) {
      chart.marks.push_back(
          {ChartMark::Kind::request, e.person.at(), e.at, request_letters(asked++)});
    } else if (e.what == drill::What::signal_shown) {
      const PersonIx clinician = p.who(procedure::Role::clinician);
      if (clinician) chart.marks.push_back({ChartMark::Kind::signal, clinician.at(), e.at, "!"});
    }
  }
  for (std::size_t i = 0; trainee && i < score.errors.size(); ++i) {
    chart.marks.push_back(
        {ChartMark::Kind::error, trainee.at(), score.errors[i].at, std::to_string(i + 1)});
  }
  std::stable_sort(chart.marks.begin(), chart.marks.end(),
                   [](const ChartMark& a, const ChartMark& b) { return a.at < b.at; });
}

Activity activity_of(const Procedure& p, const drill::Doing& doing) {
  if (doing.step && !doing.helping) return activity_of_step(p.step(doing.step));
  return doing.cover || !doing.attention ? Activity::cover : Activity::work;
}

/// What was done by steps up to now. A step under way ends now.
void add_done(Lane& lane, const Procedure& p, const World& w, PersonIx person) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const drill::StepProgress& step = w.steps[i];
    const bool seen = step.state == StepState::done || step.state == StepState::doing ||
                      step.state == StepState::paused;
    if (!seen || step.by != person || step.started == never) continue;
    const Ms end = step.ended == never ? w.now : std::min(step.ended, w.now);
    const Step& s = p.steps[i];
    lane.bars.push_back({activity_of_step(s), step.started, std::max(end, step.started), s.title,
                         !s.attention, false, false});
  }
}

/// Extra actions under way count for no step; they are shown as long as they last.
void add_extra(Lane& lane, const Procedure& p, const World& w, PersonIx person, const Strings& t) {
  for (const drill::Doing& doing : w.person(person).doing) {
    if (doing.step || !doing.action) continue;
    lane.bars.push_back({activity_of(p, doing), doing.started, w.now,
                         procedure::title_of(p, doing.action, t), !doing.attention, false, false});
  }
}

void add_waiting(Lane& lane, const Procedure& p, const World& w) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (w.steps[i].awaited == never || w.steps[i].awaited >= w.now) continue;
    lane.bars.push_back(
        {Activity::waiting, w.steps[i].awaited, w.now, p.steps[i].title, false, false, false});
    return;  // one at a time: whoever waits for two things waits once
  }
}

bool is_open(const World& w, std::size_t step) { return w.steps[step].state == StepState::waiting; }

/// The rest of what goes on, and what follows as expected.
void add_ahead(Lane& lane, const Procedure& p, const World& w, PersonIx person,
               const std::vector<timing::Window>& windows) {
  for (const drill::Doing& doing : w.person(person).doing) {
    if (doing.ends == never || doing.ends <= w.now) continue;
    lane.bars.push_back(
        {activity_of(p, doing), w.now, doing.ends, {}, !doing.attention, false, true});
  }
  for (std::size_t i = 0; i < p.steps.size() && i < windows.size(); ++i) {
    const Step& step = p.steps[i];
    if (!is_open(w, i) || step.is_cover() || step.by.front() != person) continue;
    if (windows[i].expected == never) continue;
    const Ms start = std::max(windows[i].expected, w.now);
    lane.bars.push_back({activity_of_step(step), start, start + step.takes.usual + step.reach,
                         step.title, !step.attention, false, true});
  }
}

void add_windows(Lane& lane, const Procedure& p, const World& w, PersonIx person,
                 const std::vector<timing::Window>& windows) {
  for (std::size_t i = 0; i < p.steps.size() && i < windows.size(); ++i) {
    const timing::Window& window = windows[i];
    if (!is_open(w, i) || p.steps[i].by.front() != person) continue;
    if (window.latest == never || window.earliest == never) continue;
    lane.windows.push_back(
        {window.earliest, std::max(window.earliest, window.latest), p.steps[i].title});
  }
}

}  // namespace

std::string request_letters(std::size_t index) {
  std::string out;
  for (std::size_t i = index + 1; i > 0; i = (i - 1) / 26) {
    out.insert(out.begin(), static_cast<char>('A' + (i - 1) % 26));
  }
  return out;
}

Activity activity_of_step(const Step& step) {
  return step.is_cover() || !step.attention ? Activity::cover : Activity::work;
}

Shares shares_of(const scoring::TimeSplit& t) {
  const Ms all = t.work + t.cover + t.waiting + t.standby + t.avoidable;
  if (all.count() <= 0) return {};
  const auto percent = [all](Ms part) {
    return 100.0 * static_cast<double>(part.count()) / static_cast<double>(all.count());
  };
  return {percent(t.work), percent(t.cover), percent(t.waiting), percent(t.standby),
          percent(t.avoidable)};
}

ActivityChart played_chart(const Procedure& procedure, const drill::Session& session,
                           const Score& score, const Strings& t) {
  ActivityChart chart;
  chart.title = procedure::full_title(procedure);
  chart.lanes = lanes_of(procedure);
  for (const Stretch& stretch : score.stretches) {
    chart.lanes[stretch.person.at()].bars.push_back(
        {activity_of(stretch.kind), stretch.from, stretch.to,
         label_of(procedure, stretch.step, stretch.action, t), false, false, false});
  }
  for (std::size_t i = 0; i < score.time.size(); ++i) {
    chart.lanes[i].shares = shares_of(score.time[i]);
  }
  add_links(chart, procedure, session, score);
  add_marks(chart, procedure, session, score, procedure.who(procedure::Role::assistant));
  return chart;
}

ActivityChart live_chart(const Procedure& procedure, const World& world,
                         const std::vector<timing::Window>& windows, PersonIx trainee,
                         const Strings& t) {
  ActivityChart chart;
  chart.title = procedure::full_title(procedure);
  chart.lanes = lanes_of(procedure);
  chart.now = world.now;
  for (std::size_t i = 0; i < chart.lanes.size(); ++i) {
    Lane& lane = chart.lanes[i];
    const PersonIx person{i};
    add_done(lane, procedure, world, person);
    add_extra(lane, procedure, world, person, t);
    if (procedure.person(person).role == procedure::Role::clinician) {
      add_waiting(lane, procedure, world);
    }
    if (windows.empty()) continue;
    if (person == trainee)
      add_windows(lane, procedure, world, person, windows);
    else
      add_ahead(lane, procedure, world, person, windows);
  }
  return chart;
}

ChartView around_now(Ms now, Ms length) {
  ChartView view;
  view.from = std::max(Ms{0}, now - length / 3);
  view.to = view.from + length;
  return view;
}

}  // namespace beforehand::picture
