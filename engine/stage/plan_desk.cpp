// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/plan_desk.hpp"

#include <chrono>

namespace beforehand::stage {

void PlanDesk::ask(const procedure::Procedure& procedure, timing::PlanRequest request) {
  const Question question{procedure.fingerprint, request.phase, request.happened};
  untaken_ = true;
  if (question == question_) return;
  stop();
  question_ = question;
  untaken_ = true;
  stopped_ = false;
  request.stopped = [this] { return stopped_.load(); };
  search_ = std::async(std::launch::async, [procedure, request = std::move(request)] {
    const auto plan = timing::plan(procedure, request);
    return Answer{plan, timing::explain(procedure, request, plan)};
  });
}

void PlanDesk::stop() {
  untaken_ = false;
  if (!searching()) return;
  stopped_ = true;
  search_.wait();
  search_ = {};
  question_.reset();
}

std::optional<PlanDesk::Answer> PlanDesk::take() {
  if (searching() && search_.wait_for(std::chrono::seconds(0)) == std::future_status::ready)
    answer_ = search_.get();
  if (searching() || !untaken_) return std::nullopt;
  untaken_ = false;
  return answer_;
}

void PlanDesk::wait() const {
  if (searching()) search_.wait();
}

}  // namespace beforehand::stage
