// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/verify.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "drill/recording.hpp"
#include "procedure/bundle.hpp"
#include "records/chain.hpp"
#include "records/packing.hpp"
#include "records/save.hpp"

namespace beforehand::records {
namespace {

constexpr int links_at_once = 500;

// The first figure that is not what the recording gives, or empty.
std::string first_difference(const NewSession& told, const NewSession& scored) {
  const auto& t = told.record;
  const auto& s = scored.record;
  const auto differ = [](const char* name, double a, double b) {
    return fmt::format("{} is stored as {:.3f}, the recording gives {:.3f}", name, a, b);
  };
  if (thousandths(t.total) != thousandths(s.total)) return differ("total", t.total, s.total);
  if (millionths(t.anticipation) != millionths(s.anticipation))
    return differ("anticipation", t.anticipation, s.anticipation);
  if (millionths(t.idle) != millionths(s.idle)) return differ("idle", t.idle, s.idle);
  if (millionths(t.sequence) != millionths(s.sequence))
    return differ("sequence", t.sequence, s.sequence);
  if (t.verdict != s.verdict)
    return fmt::format("verdict is stored as {}, the recording gives {}", scoring::word(t.verdict),
                       scoring::word(s.verdict));
  if (t.chair_time != s.chair_time)
    return differ("chair time", to_seconds(t.chair_time), to_seconds(s.chair_time));
  if (t.clinician_wait != s.clinician_wait || t.requests != s.requests || t.errors != s.errors ||
      t.unsafe != s.unsafe || t.complete != s.complete)
    return "waiting, requests, errors or completeness are not what the recording gives";
  if (t.outcomes != s.outcomes || told.evidence.needs != scored.evidence.needs)
    return "step outcomes or needs are not what the recording gives";
  const bool same_setup = t.level == s.level && t.seed == s.seed && t.phase == s.phase &&
                          t.assistant == s.assistant && t.scenario == s.scenario;
  return same_setup ? "" : "scenario, level, seed, phase or assistant are not the recording's";
}

class Verifier {
 public:
  Verifier(const Store& store, const VerifyOptions& options) : store_(store), o_(options) {}

  Verification run() {
    const auto head = store_.head();
    read_sign_offs();
    for (const auto& e : store_.erasures()) erasures_[e.person] = e;
    for (auto links = store_.chain(0, links_at_once); !links.empty();
         links = store_.chain(links.back().position, links_at_once)) {
      for (const auto& link : links) {
        if (link.position > head.position) return finish(head);  // written since we began
        take(link);
      }
      if (o_.progress) o_.progress(v_.links, head.position);
    }
    return finish(head);
  }

 private:
  void found(Finding::Kind kind, const Link& link, const std::string& what) {
    v_.findings.push_back({kind, link.position, link.record, what});
  }

  void read_sign_offs() {
    for (const auto& s : store_.sign_offs({})) sign_offs_[s.id] = s;
  }

  void take(const Link& link) {
    ++v_.links;
    if (link.position != last_.position + 1)
      found(Finding::Kind::broken_chain, link,
            fmt::format("the links {} to {} are missing", last_.position + 1, link.position - 1));
    else if (link.hash != hash_after(last_.hash, link))
      found(Finding::Kind::broken_chain, link,
            fmt::format("link {} does not follow from the one before it", link.position));
    if (!o_.expect.empty() && link.hash == o_.expect) expected_ = true;
    last_ = link;
    if (link.erased) {
      ++v_.erased;
      emptied_.insert(link.position);
    }
    if (link.kind == "session") take_session(link);
    if (link.kind == "sign-off") take_sign_off(link);
    if (link.kind == "revocation") take_revocation(link);
    if (link.kind == "erasure") take_erasure(link);
  }

  void take_session(const Link& link) {
    linked_sessions_.insert(link.record);
    if (link.erased) return;
    ++v_.sessions;
    try {
      const auto record = store_.session(link.record);
      if (!record) {
        found(Finding::Kind::missing_record, link, "the session is gone from the store");
        return;
      }
      check_session(link, {*record, store_.evidence(link.record), {}});
    } catch (const StoreError& e) {
      if (e.kind != StoreError::Kind::damaged && e.kind != StoreError::Kind::refused) throw;
      found(Finding::Kind::edited_record, link, e.what());
    }
  }

  void check_session(const Link& link, const NewSession& told) {
    if (content_of(told.record, told.evidence) != link.content)
      found(Finding::Kind::edited_record, link, "the session is not what was saved");
    if (o_.recompute) recompute(link, told);
  }

  void recompute(const Link& link, const NewSession& told) {
    const auto& played = version(told.record.scenario_hash);
    if (!played.procedure) {
      found(played.kind, link, played.problem);
      return;
    }
    const auto& p = *played.procedure;
    try {
      const auto session = drill::from_text(told.evidence.recording, p, "recording");
      // A later program may play the same commands otherwise; then only the hashes can tell.
      if (told.record.program != drill::program_version) {
        found(Finding::Kind::not_checked, link,
              fmt::format("played with version {} of this program, this is {}", told.record.program,
                          drill::program_version));
        return;
      }
      drill::verify(p, session, "recording");
      const Sitting sitting{told.record.id,    told.record.trainee, told.record.started,
                            told.record.ended, told.record.program, played.text};
      const auto scored = new_session(p, session, sitting, told.record.reference);
      const auto difference = first_difference(told, scored);
      if (!difference.empty()) found(Finding::Kind::edited_score, link, difference);
    } catch (const drill::RecordingError& e) {
      found(Finding::Kind::edited_recording, link, e.what());
    }
  }

  void take_sign_off(const Link& link) {
    if (link.erased) return;
    ++v_.sign_offs;
    const auto at = sign_offs_.find(link.record);
    if (at == sign_offs_.end())
      found(Finding::Kind::missing_record, link, "the sign-off is gone from the store");
    else if (content_of(at->second) != link.content)
      found(Finding::Kind::edited_record, link, "the sign-off is not what was signed");
    linked_sign_offs_.insert(link.record);
  }

  void take_revocation(const Link& link) {
    if (link.erased) return;
    const auto at = sign_offs_.find(link.record);
    const bool holds =
        at != sign_offs_.end() && !at->second.stands() && revocation_of(at->second) == link.content;
    if (!holds) found(Finding::Kind::edited_record, link, "the revocation is not what was written");
    revoked_.insert(link.record);
  }

  void take_erasure(const Link& link) {
    const auto at = erasures_.find(link.record);
    if (at == erasures_.end() || content_of(at->second) != link.content) {
      found(Finding::Kind::edited_record, link, "the note of an erasure is not what was written");
      return;
    }
    std::string_view rest = at->second.positions;
    while (!rest.empty()) {
      const auto end = std::min(rest.find(' '), rest.size());
      accounted_.insert(std::stoll(std::string(rest.substr(0, end))));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }

  Verification finish(const Link& head) {
    v_.head = head;
    if (last_.position < head.position ||
        (last_.position == head.position && last_.hash != head.hash))
      found(Finding::Kind::broken_chain, head,
            fmt::format("the chain should end with link {}, and ends with {}", head.position,
                        last_.position));
    for (const auto position : emptied_) {
      if (!accounted_.contains(position))
        v_.findings.push_back({Finding::Kind::missing_record,
                               position,
                               {},
                               "the link is marked as erased, and nobody was erased for it"});
    }
    if (!o_.expect.empty() && !expected_)
      v_.findings.push_back({Finding::Kind::broken_chain,
                             0,
                             {},
                             "the hash noted before is not in the chain any more: records before "
                             "it were changed or removed"});
    find_unlinked();
    for (const auto& s : store_.wrong_summaries())
      v_.findings.push_back(
          {Finding::Kind::edited_summary, 0, s.trainee,
           fmt::format("the standing in {} is not what the sessions give", s.scenario)});
    return std::move(v_);
  }

  void find_unlinked() {
    SessionQuery q;
    q.oldest_first = true;
    q.limit = links_at_once;
    for (;; q.offset += links_at_once) {
      const auto list = store_.sessions(q);
      for (const auto& s : list)
        if (!linked_sessions_.contains(s.id) && !recent(s))
          v_.findings.push_back({Finding::Kind::unlinked, 0, s.id,
                                 "a session that was not saved by the "
                                 "program"});
      if (static_cast<int>(list.size()) < links_at_once) break;
    }
    for (const auto& [id, s] : sign_offs_) {
      if (!linked_sign_offs_.contains(id))
        v_.findings.push_back(
            {Finding::Kind::unlinked, 0, id, "a sign-off that no trainer signed"});
      else if (!s.stands() && !revoked_.contains(id))
        v_.findings.push_back(
            {Finding::Kind::edited_record, 0, id, "a revocation that nobody made"});
    }
  }

  // Saved by somebody else while we were reading.
  bool recent(const SessionRecord& s) const {
    for (auto links = store_.chain(last_.position, links_at_once); !links.empty();
         links = store_.chain(links.back().position, links_at_once)) {
      for (const auto& l : links)
        if (l.record == s.id) return true;
    }
    return false;
  }

  struct Version {
    std::optional<procedure::Procedure> procedure;
    std::string text, problem;
    Finding::Kind kind = Finding::Kind::not_checked;
  };

  const Version& version(const std::string& hash) {
    auto& v = versions_[hash];
    if (v) return *v;
    v = std::make_unique<Version>();
    try {
      v->text = store_.scenario(hash).text;
    } catch (const StoreError& e) {
      v->problem = e.what();
      v->kind = Finding::Kind::edited_scenario;
      return *v;
    }
    if (scenario_hash(v->text) != hash) {
      v->problem = "the text of its scenario is not the one it was played with";
      v->kind = Finding::Kind::edited_scenario;
      return *v;
    }
    v->procedure = procedure::read_bundle(v->text).procedure;
    if (!v->procedure) v->problem = "its scenario cannot be read by this version of the program";
    return *v;
  }

  const Store& store_;
  const VerifyOptions& o_;
  Verification v_;
  Link last_;
  bool expected_ = false;
  std::map<Id, SignOff> sign_offs_;
  std::map<Id, Erasure> erasures_;
  std::set<std::int64_t> emptied_, accounted_;
  std::set<Id> linked_sessions_, linked_sign_offs_, revoked_;
  std::map<std::string, std::unique_ptr<Version>> versions_;
};

}  // namespace

std::string_view word(Finding::Kind kind) {
  static constexpr std::string_view words[] = {
      "broken chain",    "missing record", "edited record", "edited recording", "edited score",
      "edited scenario", "edited summary", "unlinked",      "not checked"};
  return words[static_cast<int>(kind)];
}

bool Verification::sound() const {
  return std::all_of(findings.begin(), findings.end(),
                     [](const Finding& f) { return f.kind == Finding::Kind::not_checked; });
}

Verification verify(const Store& store, const VerifyOptions& options) {
  return Verifier(store, options).run();
}

}  // namespace beforehand::records
