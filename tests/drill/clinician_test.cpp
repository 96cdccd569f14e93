// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "play.hpp"

namespace beforehand {
namespace {

// Nobody assists: the suction, the gauze and the paste are each asked for, once.
TEST(Clinician, AsksOnceForWhatIsMissing) {
  const auto p = test::tiny();
  const auto session = test::play(p, "absent", 3);
  EXPECT_EQ(test::count(session, drill::What::asked), 3);
}

}  // namespace
}  // namespace beforehand
