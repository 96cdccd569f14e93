// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "watching.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>

namespace beforehand::command {
namespace {

volatile std::sig_atomic_t pressed = 0;

void show_bar(std::size_t done, std::size_t of, const std::string& what) {
  constexpr std::size_t width = 30;
  const auto filled = of == 0 ? width : done * width / of;
  fmt::print(stderr, "\r\033[K[{:#<{}}{:.<{}}] {} of {} {} (Ctrl-C keeps what is done)", "", filled,
             "", width - filled, done, of, what);
  std::fflush(stderr);
}

}  // namespace

bool on_terminal() { return isatty(STDERR_FILENO) != 0; }

void heed_interrupts() {
  std::signal(SIGINT, [](int) { pressed = 1; });
}

bool interrupted() { return pressed != 0; }

study::Watch watch(const std::string& what) {
  heed_interrupts();
  study::Watch w;
  w.stopped = interrupted;
  if (on_terminal())
    w.progress = [what, shown = std::size_t{101}](std::size_t done, std::size_t of) mutable {
      const auto percent = of == 0 ? 100 : done * 100 / of;
      if (percent != shown) show_bar(done, of, what);
      shown = percent;
    };
  return w;
}

void clear_progress() {
  if (on_terminal()) fmt::print(stderr, "\r\033[K");
}

}  // namespace beforehand::command
