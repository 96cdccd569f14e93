// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/passcode.hpp"

#include <sodium.h>

#include <algorithm>
#include <stdexcept>

namespace beforehand::records {

std::string hash_passcode(const std::string& passcode) {
  if (passcode.size() < 6) throw std::runtime_error("a passcode needs at least 6 characters");
  if (passcode.size() > 200) throw std::runtime_error("a passcode has at most 200 bytes");
  char hash[crypto_pwhash_STRBYTES];
  if (crypto_pwhash_str(hash, passcode.data(), passcode.size(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                        crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0)
    throw std::runtime_error("too little memory for the passcode (64 MiB are needed)");
  return hash;
}

bool is_passcode(const std::string& hash, const std::string& passcode) {
  return !hash.empty() &&
         crypto_pwhash_str_verify(hash.c_str(), passcode.data(), passcode.size()) == 0;
}

std::chrono::seconds wait_after(int wrong) {
  if (wrong < 3) return std::chrono::seconds{0};
  return std::chrono::seconds{std::min(1 << std::min(wrong - 2, 20), 900)};
}

}  // namespace beforehand::records
