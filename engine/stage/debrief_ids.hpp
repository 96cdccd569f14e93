// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

namespace beforehand::stage::debrief_ids {

/// What a press on the debrief means; of a mistake, id_see or id_try + its position.
enum Id : int {
  id_again,
  id_fresh,
  id_home,
  id_zoom,
  id_earlier,
  id_later,
  id_watch,
  id_watch_stretch,
  id_stretch,
  id_chart,
  id_last,
  id_best,
  id_see = 100,
  id_try = 10'000
};

}  // namespace beforehand::stage::debrief_ids
