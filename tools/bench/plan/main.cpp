// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// How long the reference plan, the exact windows and the network's propagation take; beside the
// plan Gecode, on the same scheduling problem. CPU time of one core.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <stdexcept>

#include "procedure/reader.hpp"
#include "timing/exact_windows.hpp"
#include "timing/feasible.hpp"
#include "timing/plan_model.hpp"
#include "timing/unfolded.hpp"
#include "timing/windows.hpp"
#include "two_teeth.hpp"
#ifdef WITH_GECODE
#include "gecode_model.hpp"
#endif

namespace beforehand::bench {
namespace {

using procedure::Procedure;
using timing::Plan;
using timing::PlanModel;
using timing::TemporalNetwork;

// The least of a few turns, since others may be using the processor.
template <class Work>
double least_seconds(int turns, Work&& work) {
  double least = 1e9;
  for (int i = 0; i < turns; ++i) {
    const double begun = cpu_seconds();
    work();
    least = std::min(least, cpu_seconds() - begun);
  }
  return least;
}

Procedure load(const std::string& path) {
  const auto text = procedure::load_text(path);
  auto reading = procedure::read(text);
  if (!reading.procedure) throw std::runtime_error(print(reading.problems, path, text));
  return std::move(*reading.procedure);
}

// The plan, its time, its exact windows' time; Gecode on the same problem, up to `limit_s`.
void measure_plan(const std::string& name, const Procedure& p, int turns, double limit_s) {
  Plan plan;
  const double planning = least_seconds(turns, [&] { plan = timing::plan(p); });
  const auto happening = timing::in_order(plan).size();
  fmt::print("{:34} {:5} {:>9} {:9.3f} s {:9}", name, happening, duration_text(plan.chair_time),
             planning, plan.proven() ? "proven" : "NOT PROVEN");
  if (!timing::violations(p, {}, plan).empty()) fmt::print(" BREAKS ITS RULES");
  const double windows = least_seconds(turns, [&] {
    if (!timing::exact_windows(p, {}, plan)) std::puts(" NO WINDOWS");
  });
  fmt::print(" {:9.3f} s", windows);
#ifdef WITH_GECODE
  const PlanModel model(p, {});
  const auto base = solve_with_gecode(model.problem, model.clinician_first, model.clinician_last,
                                      2 * static_cast<int>(plan.chair_time / model.unit), limit_s);
  const auto best = base.finish ? duration_text(model.unit * *base.finish) : "none";
  fmt::print("   {:9.3f} s {:24} {:8.1f}", base.seconds,
             base.finish_proven && base.span_proven ? "proven"
             : base.finish_proven                   ? "waiting not proven"
                                                    : fmt::format("not proven, best {}", best),
             base.seconds / planning);
#else
  (void)limit_s;
#endif
  std::puts("");
  std::fflush(stdout);
}

// A drill as the plan has it, event by event: what has happened fixes a point of the network.
void measure_propagation(const Procedure& p) {
  const auto plan = timing::plan(p);
  const timing::Unfolded unfolded(p, {}, timing::Unfolded::Durations::free);
  TemporalNetwork fresh(unfolded.network.points);
  for (const auto& c : unfolded.network.constraints) fresh.add(c);
  struct Event {
    Ms at;
    TemporalNetwork::Point point;
  };
  std::vector<Event> events;
  for (std::size_t i = 0; i < unfolded.says.size(); ++i) {
    const auto& c = unfolded.network.constraints[i];
    if (unfolded.says[i].kind != timing::Unfolded::Says::Kind::duration || c.from == 0) continue;
    const auto& step = plan.steps[unfolded.says[i].to.at()];
    events.push_back({step.start, c.from});
    events.push_back({step.end, c.to});
  }
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.at < b.at; });
  if (!fresh.propagate()) throw std::runtime_error("the network contradicts itself");
  constexpr int rounds = 50;
  const auto drill = [&](bool anew) {
    for (int i = 0; i < rounds; ++i) {
      auto network = fresh;
      for (const auto& e : events) {
        const TemporalNetwork::Constraint at{0, e.point, e.at, e.at};
        const bool kept = anew ? (network.add(at), network.propagate()) : network.tighten(at);
        if (!kept) throw std::runtime_error("the plan contradicts the network");
      }
    }
  };
  const auto a_call = [&](double seconds) {
    return 1e6 * seconds / rounds / static_cast<double>(events.size());
  };
  const double grown = a_call(least_seconds(5, [&] { drill(false); }));
  const double anew = a_call(least_seconds(3, [&] { drill(true); }));
  timing::WindowFinder finder(p);
  const std::vector<timing::StepTime> progress(p.steps.size());
  std::vector<timing::Window> out;
  constexpr int calls = 2000;
  const double windows = 1e6 / calls * least_seconds(5, [&] {
                           for (int i = 0; i < calls; ++i) finder.find(progress, Ms{0}, out);
                         });
  fmt::print("\n{} steps, {} events of a drill\n", p.steps.size(), events.size());
  fmt::print("{:50}{:9.2f} us an event\n", "network, incremental propagation", grown);
  fmt::print("{:50}{:9.2f} us an event, {:.1f} times\n", "network, propagated anew", anew,
             anew / grown);
  fmt::print("{:50}{:9.2f} us an event\n", "windows of all steps from there", windows);
}

void run(const std::vector<std::string>& files, double limit_s) {
  fmt::print("{:34} {:>5} {:>9} {:>11} {:9} {:>11}   {}\n", "", "steps", "chair", "plan", "",
             "windows", "Gecode, and how many times as long");
  for (const auto& file : files) {
    const auto p = load(file);
    measure_plan(p.id, p, 5, limit_s);
  }
  const auto class_ii = load(files.front());
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const auto p = two_teeth(class_ii, {"bonding", "filling"}, seed);
    measure_plan(fmt::format("two teeth, seed {}", seed), p, 1, limit_s);
  }
  measure_propagation(two_teeth(class_ii, {"bonding", "filling"}, 1));
}

}  // namespace
}  // namespace beforehand::bench

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr,
                 "usage: bench_plan GECODE_SECONDS SCENARIO.yaml...\n"
                 "The first scenario is doubled for two teeth; it must have the phases bonding and "
                 "filling.\n");
    return 2;
  }
  try {
    beforehand::bench::run({argv + 2, argv + argc}, std::atof(argv[1]));
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
