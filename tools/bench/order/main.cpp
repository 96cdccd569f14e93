// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What scoring costs: of a recording of some sixty actions, beside the textbook alignment of the
// same actions by A*, and of a long one, five hundred actions on three hundred steps.
#include <cstdio>
#include <ctime>
#include <exception>
#include <memory>
#include <stdexcept>

#include "../../../tests/scoring/made_up.hpp"
#include "base/random.hpp"
#include "drill/cast.hpp"
#include "petri_net.hpp"
#include "procedure/reader.hpp"
#include "scoring/scorer.hpp"
#include "scoring/sequence.hpp"

namespace beforehand::bench {
namespace {

using procedure::Procedure;
using procedure::Role;

constexpr std::size_t most_states = 2'000'000;
constexpr std::size_t most_markings = 300'000;  // each is a token count a place: some 200 MB in all

double cpu_seconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

/// CPU seconds of one turn, the least of nine rounds.
template <class What>
double least_time(int turns, What&& what) {
  double least = 1e9;
  for (int round = 0; round < 9; ++round) {
    const double before = cpu_seconds();
    for (int i = 0; i < turns; ++i) what();
    least = std::min(least, (cpu_seconds() - before) / turns);
  }
  return least;
}

enum class Slip { any, done_already };

/// A practised assistant who, so often in a hundred, does something else that is possible.
class Fumbling final : public drill::Controller {
 public:
  Fumbling(const Procedure& p, PersonIx me, int percent, Slip slip)
      : me_(me),
        percent_(percent),
        slip_(slip),
        bot_(me, {}, 1, std::make_shared<timing::WindowFinder>(p)) {}

  bool decide(const Procedure& p, const drill::World& w, drill::Command& out) override {
    if (w.over || w.person(me_).attention()) return false;
    if (!bot_.decide(p, w, out)) return false;
    if (keyed_uniform({1, 1, ++choices_}) * 100 >= percent_) return true;
    std::vector<ActionIx> possible;
    for (std::size_t a = 0; a < p.actions.size(); ++a)
      if (may_slip_to(p, w, ActionIx{a})) possible.emplace_back(a);
    if (possible.empty()) return true;
    out.op = drill::Op::act;
    out.action = possible[keyed_bits({2, 1, choices_}) % possible.size()];
    return true;
  }
  Ms wake(const Procedure& p, const drill::World& w) override { return bot_.wake(p, w); }

 private:
  bool may_slip_to(const Procedure& p, const drill::World& w, ActionIx a) const {
    if (p.action(a).cover || (slip_ == Slip::done_already && counts_for(p, w, a))) return false;
    return may_i(p, w, me_, a) == drill::Reason::none;
  }

  PersonIx me_;
  int percent_;
  Slip slip_;
  drill::Bot bot_;
  std::uint64_t choices_ = 0;
};

drill::Session played(const Procedure& p, int percent, Slip slip) {
  drill::Run run(p, {});
  cast(run, drill::Habit{});
  const auto me = p.who(Role::assistant);
  run.control(me, std::make_unique<Fumbling>(p, me, percent, slip));
  run.play_out();
  return run.session();
}

/// The trainee's actions that may stand in the order, in the terms of A*.
struct Problem {
  Before before;
  Done done;
};

Problem problem_of(const scoring::Frame& f, const scoring::Trace& t,
                   const scoring::Alignment& alignment) {
  std::vector<StepIx> steps;
  std::vector<int> position(f.procedure.steps.size(), -1);
  for (std::size_t s = 0; s < position.size(); ++s) {
    if (!alignment.expected[s]) continue;
    position[s] = static_cast<int>(steps.size());
    steps.emplace_back(s);
  }
  Problem problem{order_among(f.procedure, steps), {}};
  for (const auto& a : t.actions) {
    if (a.outcome == scoring::Action::Outcome::broken) continue;
    const bool stands =
        a.step && !a.too_soon && !a.spent && a.outcome != scoring::Action::Outcome::nothing;
    problem.done.push_back(stands ? position[a.step.at()] : -1);
  }
  return problem;
}

struct Costs {
  int cost;
  double aligned, scored;  ///< CPU seconds
};

/// One turn of another method on the same problem, which must find the same cost.
template <class Search>
void beside(const char* name, const Costs& ours, Search&& search) {
  const double before = cpu_seconds();
  const AStar::Result found = search();
  const double took = cpu_seconds() - before;
  const bool given_up = found.cost < 0;
  if (!given_up && found.cost != ours.cost)
    throw std::logic_error(std::string(name) + ": another cost");
  std::printf(
      "     %s %10.0f us (%zu states%s), %s%.0f times the alignment, %s%.1f times the scoring\n",
      name, took * 1e6, found.states, given_up ? ", given up" : "", given_up ? "> " : "",
      took / ours.aligned, given_up ? "> " : "", took / ours.scored);
}

void measure(const Procedure& p, int percent, Slip slip = Slip::any) {
  const auto session = played(p, percent, slip);
  const auto me = p.who(Role::assistant);
  scoring::Scorer scorer(p, me);
  const scoring::Frame frame(p, me);
  scoring::Trace trace;
  trace.read(frame, session);
  scoring::Aligner aligner;
  const auto alignment = aligner.align(frame, session, trace);
  const auto& order = alignment.order;
  const double scored = least_time(20, [&] { scorer.score(session); });
  const double aligned = least_time(100, [&] { aligner.align(frame, session, trace); });
  std::printf("%3d%% %4d actions %4d steps, cost %4d: scored %8.1f us, of it aligned %8.2f us",
              percent, order.actions, order.steps, order.cost, scored * 1e6, aligned * 1e6);
  if (order.steps > static_cast<int>(AStar::most_steps)) return void(std::puts(""));
  std::puts("");
  const Problem problem = problem_of(frame, trace, alignment);
  const Costs costs{order.cost, aligned, scored};
  beside("A* on the partial order", costs,
         [&] { return AStar{}.align(problem.before, problem.done, most_states); });
  beside("A* on markings of a net", costs, [&] {
    const Product net = product_of(problem.before, problem.done);
    return MarkingSearch(net).find(most_markings);
  });
}

Procedure read(const char* path) {
  const auto text = procedure::load_text(path);
  auto reading = procedure::read(text);
  if (!reading.procedure) throw std::runtime_error(print(reading.problems, path, text));
  return std::move(*reading.procedure);
}

}  // namespace
}  // namespace beforehand::bench

int main(int argc, char** argv) {
  using namespace beforehand;
  if (argc != 2) {
    std::fprintf(stderr, "usage: bench_order SCENARIO.yaml\n");
    return 2;
  }
  try {
    const auto p = bench::read(argv[1]);
    for (const int percent : {0, 10, 25, 50}) bench::measure(p, percent);
    const auto middle = test::made_up(3, {.phases = 2, .blocks = 2, .duties = 11});
    std::printf("made up by chance, %zu steps in all:\n", middle.steps.size());
    for (const int percent : {0, 10, 25, 50}) bench::measure(middle, percent);
    const auto large = test::made_up(3, {.phases = 6, .blocks = 3, .duties = 14});
    std::printf("made up by chance, %zu steps in all:\n", large.steps.size());
    for (const int percent : {0, 50}) bench::measure(large, percent);
    bench::measure(large, 50, bench::Slip::done_already);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
