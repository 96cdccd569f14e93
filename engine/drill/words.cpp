// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <array>

#include "drill/command.hpp"
#include "drill/event.hpp"
#include "drill/session.hpp"

namespace beforehand::drill {
namespace {

template <class E, std::size_t N>
std::string_view in(const std::array<std::string_view, N>& words, E e) {
  return words[static_cast<std::size_t>(e)];
}

constexpr std::array<std::string_view, 7> ops{"act", "stop", "break-off", "begin",
                                              "ask", "help", "raise"};
constexpr std::array<std::string_view, 26> whats{
    "action-started", "action-done",   "action-broken", "lined-up",     "refused",
    "cover-started",  "cover-stopped", "cover-served",  "step-started", "step-paused",
    "step-resumed",   "step-done",     "step-skipped",  "need-arose",   "need-met",
    "asked",          "helping",       "helped",        "signal-shown", "signal-passed",
    "prepared",       "has-set",       "unready-start", "lag-overrun",  "soiled-touch",
    "ended"};
constexpr std::array<std::string_view, 16> reasons{
    "none",      "hands-full", "busy",         "not-here", "not-set-out",   "already-so",
    "not-used",  "gone",       "not-prepared", "has-set",  "device-in-use", "not-covering",
    "not-yours", "not-ready",  "over",         "shut-away"};
constexpr std::array<std::string_view, 3> levels{"guided", "unaided", "assessed"};

}  // namespace

std::string_view word(Op o) { return in(ops, o); }
std::string_view word(What w) { return in(whats, w); }
std::string_view word(Level l) { return in(levels, l); }
std::string_view word(Reason r) { return in(reasons, r); }

}  // namespace beforehand::drill
