// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/chain.hpp"

#include <sodium.h>

#include "records/packing.hpp"

namespace beforehand::records {
namespace {

std::string number(std::int64_t n) { return std::to_string(n); }
std::string number(Ms t) { return std::to_string(t.count()); }
std::string number(Moment t) { return std::to_string(t.time_since_epoch().count()); }
std::string yes(bool b) { return b ? "1" : "0"; }

}  // namespace

std::string digest(std::string_view text) {
  unsigned char hash[crypto_generichash_BYTES];
  crypto_generichash(hash, sizeof hash, reinterpret_cast<const unsigned char*>(text.data()),
                     text.size(), nullptr, 0);
  char hex[2 * sizeof hash + 1];
  return sodium_bin2hex(hex, sizeof hex, hash, sizeof hash);
}

std::string digest_of(const std::vector<std::string>& fields) {
  std::string all;
  for (const auto& field : fields) {
    all += std::to_string(field.size());
    all += ':';
    all += field;
  }
  return digest(all);
}

// What was done around a drill is a field where there is any: a record without it has the hash it
// always had.
std::string content_of(const SessionRecord& s, const Evidence& e) {
  std::vector<std::string> fields{"session",
                                  s.id,
                                  s.trainee,
                                  s.scenario,
                                  s.scenario_hash,
                                  s.program,
                                  std::string(drill::word(s.level)),
                                  s.phase,
                                  s.assistant,
                                  std::to_string(s.seed),
                                  number(s.started),
                                  number(s.ended),
                                  yes(s.complete),
                                  number(thousandths(s.total)),
                                  number(millionths(s.anticipation)),
                                  number(millionths(s.idle)),
                                  number(millionths(s.sequence)),
                                  std::string(scoring::word(s.verdict)),
                                  number(s.chair_time),
                                  number(s.reference.chair_time),
                                  yes(s.reference.proven),
                                  number(s.clinician_wait),
                                  number(s.requests),
                                  number(s.errors),
                                  yes(s.unsafe),
                                  pack(s.outcomes),
                                  digest(e.recording),
                                  digest(pack(e.needs))};
  if (!e.around.empty()) fields.push_back(digest(pack(e.around)));
  return digest_of(fields);
}

std::string content_of(const SignOff& s) {
  return digest_of({"sign-off", s.id, s.trainee, s.trainer, s.scenario, s.scenario_hash,
                    number(s.at), s.criteria, s.note});
}

std::string revocation_of(const SignOff& s) {
  return digest_of({"revocation", s.id, s.revoked_by, number(s.revoked_at), s.revoked_why});
}

std::string content_of(const Erasure& e) {
  return digest_of({"erasure", e.person, number(e.at), e.positions});
}

std::string hash_after(const std::string& previous, const Link& link) {
  return digest_of({previous, number(link.position), link.kind, link.record, link.content});
}

}  // namespace beforehand::records
