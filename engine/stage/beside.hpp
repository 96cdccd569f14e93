// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <atomic>
#include <cassert>
#include <chrono>
#include <functional>
#include <future>
#include <optional>

#include "study/crew.hpp"

namespace beforehand::stage {

/// Long work in a thread of its own, beside the frames: watched, and stopped at any moment.
template <class Result>
class Beside {
 public:
  Beside() = default;
  ~Beside() {
    stop();
    wait();
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;

  /// Begins; needs what was begun before to have been taken. The work heeds the watch it is given.
  void begin(std::function<Result(const study::Watch&)> work) {
    assert(!working());
    stopped_ = false;
    done_ = of_ = 0;
    study::Watch watch;
    watch.stopped = [this] { return stopped_.load(); };
    watch.progress = [this](std::size_t done, std::size_t of) {
      done_ = done;
      of_ = of;
    };
    result_ = std::async(std::launch::async, [work = std::move(work), watch = std::move(watch)] {
      return work(watch);
    });
  }

  /// Until the result is taken.
  bool working() const { return result_.valid(); }
  std::size_t done() const { return done_; }
  std::size_t of() const { return of_; }
  void stop() { stopped_ = true; }
  bool stopped() const { return stopped_; }
  void wait() const {
    if (working()) result_.wait();
  }

  /// The result, once, when it is there; what the work threw is thrown here.
  std::optional<Result> take() {
    if (!working() || result_.wait_for(std::chrono::seconds(0)) != std::future_status::ready)
      return std::nullopt;
    return result_.get();
  }

 private:
  std::atomic<bool> stopped_ = false;
  std::atomic<std::size_t> done_ = 0, of_ = 0;
  std::future<Result> result_;
};

}  // namespace beforehand::stage
