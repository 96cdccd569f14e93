// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The words inside pictures, in the language of the screens.
#pragma once

#include "picture/activity_chart.hpp"
#include "picture/room_build.hpp"
#include "stage/strings.hpp"

namespace beforehand::stage {

picture::ChartWords chart_words(const Strings&);
picture::RoomWords room_words(const Strings&);
picture::FieldWords field_words(const Strings&);

}  // namespace beforehand::stage
