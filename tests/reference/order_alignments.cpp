// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The alignment against what process mining says of alignments: its published running example, and
// its general algorithm, A* over the markings of the synchronous product of two Petri nets; and one
// made for partial orders (both in tools/bench/order/).
#include <gtest/gtest.h>

#include <numeric>
#include <string>

#include "../../tools/bench/order/petri_net.hpp"
#include "random_orders.hpp"

namespace beforehand::scoring {
namespace {

Order aligned(const Case& c) {
  return Aligner().align(Frame(c.procedure, PersonIx{0}), Session{}, c.trace).order;
}

bench::Before order_of(const Case& c) {
  std::vector<StepIx> steps(c.procedure.steps.size());
  for (std::size_t s = 0; s < steps.size(); ++s) steps[s] = StepIx{s};
  return bench::order_among(c.procedure, steps);
}

int a_star_cost(const Case& c) {
  return bench::AStar().align(order_of(c), c.done, 10'000'000).cost;
}

int petri_net_cost(const Case& c) {
  const auto net = bench::product_of(order_of(c), c.done);
  return bench::MarkingSearch(net).find(10'000'000).cost;
}

// The requests for compensation of van der Aalst, Process mining (2nd edition, 2016), chapter 8.
// The four models, the traces and the costs are from memory. a registers a request, b examines it
// thoroughly, c casually, d checks the ticket, e decides, g pays, h rejects. Where the model may
// choose, the run is taken that the example aligns to, so that each step stands once.
// Fitness is 1 - cost / (cost of the worst alignment): all of the trace and all of the run.
struct Model {
  std::string steps;                         ///< in an order the model allows
  std::vector<std::pair<char, char>> links;  ///< first, then
};

const Model free_order{"acdeh", {{'a', 'c'}, {'a', 'd'}, {'c', 'e'}, {'d', 'e'}, {'e', 'h'}}};
const Model one_after_the_other{"acdeh", {{'a', 'c'}, {'c', 'd'}, {'d', 'e'}, {'e', 'h'}}};

Case trace_on(const Model& model, const std::string& trace) {
  Procedure p = steps_of_one(model.steps.size());
  for (const auto& [first, then] : model.links)
    link(p, model.steps.find(first), model.steps.find(then));
  std::vector<int> done;
  for (const char activity : trace) {
    const auto at = model.steps.find(activity);
    done.push_back(at == std::string::npos ? -1 : static_cast<int>(at));
  }
  return performed(std::move(p), std::move(done));
}

struct Published {
  const char* name;
  Model model;
  std::string trace;
  int cost;
  double fitness;
};

class PublishedAlignments : public testing::TestWithParam<Published> {};

TEST_P(PublishedAlignments, CostAsMuchAndFitAsWell) {
  const auto& published = GetParam();
  const Case c = trace_on(published.model, published.trace);
  const Order order = aligned(c);
  EXPECT_EQ(order.cost, published.cost);
  EXPECT_NEAR(order.fitness, published.fitness, 1e-12);
  EXPECT_EQ(a_star_cost(c), published.cost);
  EXPECT_EQ(petri_net_cost(c), published.cost);
}

INSTANTIATE_TEST_SUITE_P(
    Compensation, PublishedAlignments,
    testing::Values(Published{"acdeh_on_the_first_model", free_order, "acdeh", 0, 1.0},
                    Published{"adceh_on_the_first_model", free_order, "adceh", 0, 1.0},
                    Published{"adceh_on_the_second_model", one_after_the_other, "adceh", 2, 0.8},
                    Published{"abdeg_on_the_third_model", one_after_the_other, "abdeg", 4, 0.6}),
    [](const auto& parameter) { return std::string(parameter.param.name); });

TEST(OrderReference, AlignmentCostsAsMuchAsByAStar) {
  std::mt19937_64 random(1968);
  int imperfect = 0;
  for (int i = 0; i < 150; ++i) {
    const Case c = random_case(8 + random() % 13, random);
    const int cost = aligned(c).cost;
    EXPECT_EQ(cost, a_star_cost(c)) << "case " << i;
    if (c.procedure.steps.size() <= 12) {
      EXPECT_EQ(cost, petri_net_cost(c)) << "case " << i;
    }
    imperfect += cost > 2 ? 1 : 0;
  }
  EXPECT_GT(imperfect, 75) << "the cases must put it to the test";
}

}  // namespace
}  // namespace beforehand::scoring
