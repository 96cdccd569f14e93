// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/advice.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "base/text.hpp"
#include "procedure/relations.hpp"

namespace beforehand::procedure {
namespace {

// Beginnings of words, in small letters, for what is commonly the clinician's alone: diagnosis,
// injection, cutting, ordering drugs (policies of dental associations; the law where one works
// decides). English and Spanish, as the scenarios of the shelf.
constexpr std::array<std::string_view, 24> restricted_words{
    "inject", "anaesthetis", "anesthetiz", "diagnos",  "prescrib", "incis",
    "cuts ",  "drills",      "excavat",    "extract",  "luxat",    "sutures",
    "inyect", "anestesi",    "diagnost",   "prescrib", "incid",    "corta ",
    "talla ", "fresa ",      "excava",     "extrae",   "luxa",     "sutura "};

std::string small(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

class Advice {
 public:
  explicit Advice(const Procedure& p) : p_(p), lives_(lives(p)) {}

  std::vector<Problem> run() {
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const StepIx ix{i};
      warn_of_never(ix);
      warn_of_prep_for_nothing(ix);
      warn_of_water(ix);
      warn_of_silence(ix);
      warn_of_restricted(ix);
    }
    for (std::size_t i = 0; i < p_.phases.size(); ++i) warn_of_phase(PhaseIx{i});
    sort_by_place(problems_);
    return std::move(problems_);
  }

 private:
  void warn(Mark mark, Said message) {
    problems_.push_back({Problem::Kind::warning, mark, std::move(message)});
  }

  bool is_clinicians(const Step& step) const {
    return p_.person(doer(step)).role == Role::clinician;
  }

  bool always(const Signal& s, int percent) const {
    return s.likely_percent == percent &&
           std::all_of(s.foretold.begin(), s.foretold.end(),
                       [&](const Foretold& f) { return f.likely_percent == percent; });
  }

  void warn_of_never(StepIx ix) {
    const Step& step = p_.step(ix);
    for (const SignalIx s : step.when) {
      if (always(p_.signal(s), 0))
        warn(step.mark,
             say("{} is never reached: its signal {} is 0 % likely", step.id, p_.signal(s).id));
    }
    for (const SignalIx s : step.unless) {
      if (always(p_.signal(s), 100))
        warn(step.mark,
             say("{} is never reached: the signal {} always happens", step.id, p_.signal(s).id));
    }
  }

  // Set out, opened, mixed, loaded or passed, and then neither needed nor used.
  void warn_of_prep_for_nothing(StepIx ix) {
    const Step& prep = p_.step(ix);
    const bool gets_ready = prepares(prep.verb) || prep.verb == Verb::set_out;
    if (!gets_ready || prep.serves) return;
    const auto& life = lives_[prep.supply.at()];
    const auto at = std::find(life.begin(), life.end(), ix);
    const bool used = std::any_of(at, life.end(), [&](StepIx later) {
      const Verb verb = p_.step(later).verb;
      return later != ix && (needs_supply(p_.step(later), prep.supply) || verb == Verb::use ||
                             verb == Verb::place || verb == Verb::light || verb == Verb::suction ||
                             verb == Verb::dry || verb == Verb::hold || verb == Verb::check);
    });
    if (!used)
      warn(prep.mark,
           say("{} serves nothing: no later step needs or uses {}; pass {} to the step it "
               "is for, or take this step away",
               prep.id, p_.supply(prep.supply).id, p_.supply(prep.supply).id));
  }

  // Something sprays while nobody else is there to take it up.
  void warn_of_water(StepIx ix) {
    const Step& step = p_.step(ix);
    if (!is_clinicians(step) || !step.leaves.test(static_cast<std::size_t>(Field::wet))) return;
    const bool covered =
        std::any_of(step.covered_by.begin(), step.covered_by.end(), [&](StepIx cover) {
          return p_.step(cover).verb == Verb::suction && doer(p_.step(cover)) != doer(step);
        });
    if (!covered)
      warn(step.mark, say("{} leaves the field wet, but nobody holds the suction meanwhile; "
                          "add a cover \"does: suction, covers: {}\"",
                          step.id, step.id));
  }

  void warn_of_silence(StepIx ix) {
    const Step& step = p_.step(ix);
    if (is_clinicians(step) || (!step.cue.empty() && !step.why.empty())) return;
    const auto* lacks = !step.cue.empty()   ? "\"why\""
                        : !step.why.empty() ? "\"cue\""
                                            : "\"cue\" and no \"why\"";
    warn(step.mark, say("{} has no {}: the trainee cannot learn from it when to do it or "
                        "what for",
                        step.id, lacks));
  }

  void warn_of_restricted(StepIx ix) {
    const Step& step = p_.step(ix);
    if (is_clinicians(step) || step.verb == Verb::pass || step.verb == Verb::take_back ||
        step.verb == Verb::set_out || step.verb == Verb::put_away)
      return;
    const auto title = small(step.title);
    for (const auto word : restricted_words) {
      if (!title.starts_with(word)) continue;
      return warn(step.mark,
                  say("{} is commonly a duty of the clinician alone; look up the law where "
                      "you work before an assistant practises it",
                      step.id));
    }
  }

  void warn_of_phase(PhaseIx phase) {
    bool any = false, needs = false;
    for (const Step& step : p_.steps) {
      if (step.phase != phase) continue;
      any = true;
      needs = needs || (is_clinicians(step) && !step.needs.empty());
    }
    if (any && !needs)
      warn(p_.phases[phase.at()].mark,
           say("in the phase {} the clinician needs nothing of anybody: a drill of it alone "
               "has nothing to anticipate",
               p_.phases[phase.at()].id));
  }

  const Procedure& p_;
  std::vector<std::vector<StepIx>> lives_;
  std::vector<Problem> problems_;
};

}  // namespace

std::vector<Problem> advice(const Procedure& p) { return Advice(p).run(); }

}  // namespace beforehand::procedure
