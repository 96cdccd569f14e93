// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The words inside pictures, in the language of the screens.
#pragma once

#include "base/strings.hpp"
#include "picture/chart_words.hpp"
#include "picture/room_build.hpp"

namespace beforehand::stage {

using picture::chart_words;
picture::RoomWords room_words(const Strings&);
picture::FieldWords field_words(const Strings&);

}  // namespace beforehand::stage
