// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

namespace beforehand::command {

/// Sends statements to a store of learning records: a POST to the resource "statements" below the
/// address, as IEEE 9274.1.1 and xAPI 1.0.3 (Communication 2.1.2) have it, a hundred at a time. A
/// statement's id is its session's, so that sending again doubles nothing there. The address is
/// https, or http on this machine alone; BEFOREHAND_XAPI_LOGIN holds NAME:PASSWORD for it. Ends the
/// command when not everything was taken, saying how much was. Gives how many were sent.
std::size_t send_statements(const std::string& statements, const std::string& address);

}  // namespace beforehand::command
