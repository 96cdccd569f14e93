// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/crew.hpp"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace beforehand::study {
namespace {

/// The pieces still to be done, and who waits for them.
class Pool {
 public:
  explicit Pool(std::size_t pieces) : pieces_(pieces) {}

  void work(const std::function<Work()>& hire) {
    try {
      const Work work = hire();
      for (std::size_t piece = 0; take(piece); finish()) work(piece);
    } catch (...) {
      const std::lock_guard lock(mutex_);
      if (!failure_) failure_ = std::current_exception();
      stopped_ = true;
    }
    const std::lock_guard lock(mutex_);
    ++left_;
    changed_.notify_one();
  }

  void oversee(unsigned workers, const Watch& watch) {
    std::unique_lock lock(mutex_);
    for (std::size_t seen = 0; left_ < workers || seen < done_;) {
      changed_.wait(lock, [&] { return done_ != seen || left_ == workers; });
      seen = done_;
      lock.unlock();
      if (watch.progress) watch.progress(seen, pieces_);
      const bool stop = watch.stopped && watch.stopped();
      lock.lock();
      stopped_ = stopped_ || stop;
    }
  }

  std::size_t result() const {
    if (failure_) std::rethrow_exception(failure_);
    return done_;
  }

 private:
  bool take(std::size_t& piece) {
    const std::lock_guard lock(mutex_);
    if (stopped_ || next_ >= pieces_) return false;
    piece = next_++;
    return true;
  }

  void finish() {
    const std::lock_guard lock(mutex_);
    ++done_;
    changed_.notify_one();
  }

  std::mutex mutex_;
  std::condition_variable changed_;
  std::size_t pieces_, next_ = 0, done_ = 0;
  unsigned left_ = 0;
  bool stopped_ = false;
  std::exception_ptr failure_;
};

}  // namespace

std::size_t share_out(std::size_t pieces, unsigned threads, const std::function<Work()>& hire,
                      const Watch& watch) {
  if (threads == 0) threads = std::max(1u, std::thread::hardware_concurrency());
  threads = static_cast<unsigned>(std::min<std::size_t>(threads, pieces));
  if (watch.stopped && watch.stopped()) return 0;
  Pool pool(pieces);
  std::vector<std::jthread> crew;
  for (unsigned i = 0; i < threads; ++i) crew.emplace_back([&] { pool.work(hire); });
  pool.oversee(threads, watch);
  crew.clear();  // joins
  return pool.result();
}

}  // namespace beforehand::study
