// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string_view>

#include "base/index.hpp"
#include "base/time.hpp"

namespace beforehand::drill {

/// What happened. The fields that carry a meaning are named behind each; the others are empty.
enum class What : std::uint8_t {
  action_started,  ///< person, action, step (the step it counts for, if any), supply; value:
                   ///< planned length in ms
  action_done,     ///< person, action, step, supply; value 1: it took effect, 0: too early, nothing
                   ///< came of it
  action_broken,   ///< person, action, step, supply: broken off, nothing came of it
  lined_up,        ///< person, action: waits behind what is going on
  refused,         ///< person, action or step; value: the Reason
  cover_started,   ///< person, action, step (the cover step it counts for, if any)
  cover_stopped,   ///< person, action, step
  cover_served,    ///< person, action, step: an ongoing cover serves this cover step from now on
  step_started,    ///< person, step; value: length drawn, in ms. Only steps of verb work or by the
                   ///< clinician.
  step_paused,     ///< person, step: a cover it needs has stopped
  step_resumed,    ///< person, step
  step_done,       ///< person (none: nobody had to), step: done by whoever did it
  step_skipped,    ///< step: its signals make it not apply
  need_arose,      ///< step, value (position of the need): all else was ready and this was missing,
                   ///< so that the clinician stands still from here on. One past the last: what is
                   ///< kept from the step (kept_from()), with its action and supply
  need_met,        ///< at the step's start, for each need that was met: person (who served), step,
                   ///< value; `since` the moment from which it was ready
  asked,           ///< person (who asks), step, value; what is kept as above
  helping,         ///< person, step, value: fetches, holds or does it without the other, or takes
                   ///< what is kept, as above, at a cost in time
  helped,          ///< person, step, value; what is kept as above
  signal_shown,    ///< signal
  signal_passed,   ///< signal: will not come
  prepared,        ///< person, supply, step
  has_set,         ///< supply: past its working time
  unready_start,   ///< person, action, step begun before its predecessor `cause` was done; value 1:
                   ///< the link is unsafe to break
  lag_overrun,     ///< step (the late one), cause (its predecessor); value: ms too late
  soiled_touch,    ///< person, supply, step: something clean was touched with soiled gloves, or
                   ///< something soiled passed
  ended,  ///< value 0: everything done, 1: closed by the time limit, 2: broken off by a person
};
std::string_view word(What);

/// Why an action cannot be done now. `none`: it can.
enum class Reason : std::uint8_t {
  none,
  hands_full,    ///< needs more free hands than there are
  busy,          ///< attention is elsewhere (it can be lined up)
  not_here,      ///< the supply is in somebody else's hand, or in use
  not_set_out,   ///< still in its store
  already_so,    ///< nothing to do: already in that state
  not_used,      ///< taking back or wiping what was not used
  gone,          ///< discarded
  not_prepared,  ///< passing what must be opened, mixed or loaded first
  has_set,       ///< passing what has set
  device_in_use,
  not_covering,  ///< stopping a cover that is not going on
  not_yours,     ///< a step of somebody else
  not_ready,     ///< a step whose conditions do not hold
  over,          ///< the drill has ended
  shut_away,     ///< inside something that has not been fetched (last: recordings hold the number)
};
std::string_view word(Reason);

struct Event {
  Ms at{0};
  What what = What::ended;
  PersonIx person;
  ActionIx action;
  StepIx step;
  StepIx cause;
  SupplyIx supply;
  SignalIx signal;
  std::int64_t value = 0;
  Ms since{0};

  friend bool operator==(const Event&, const Event&) = default;
};

}  // namespace beforehand::drill
