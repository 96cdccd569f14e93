// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <cctype>
#include <string>

#include "procedure/procedure.hpp"
#include "scoring/errors.hpp"
#include "scoring/phrases.hpp"

// Errors in words. The scenario's own texts come first; where it is silent, the rule in general.

namespace beforehand::scoring {
namespace {

class Sentences {
 public:
  explicit Sentences(const Findings& in)
      : in_(in), p_(in.frame.procedure), say_(phrases(p_.language)) {}

  void write(Error& e) const {
    e.what = what(e);
    e.why = why(e);
    e.instead = instead(e);
  }

 private:
  const Findings& in_;
  const Procedure& p_;
  const Phrases& say_;

  std::string title(StepIx s) const {
    return s ? filled(say_.title, p_.step(s).title) : std::string(say_.a_step);
  }
  std::string supply_of(StepIx s) const {
    return s && p_.step(s).supply ? named(p_.step(s).supply) : std::string(say_.it);
  }
  std::string kept(ActionIx a) const {
    return a && p_.action(a).supply ? named(p_.action(a).supply) : action_name(a);
  }
  std::string named(SupplyIx supply) const {
    std::string name = p_.supply(supply).name;
    const bool plain_word = name.size() > 1 && std::islower(static_cast<unsigned char>(name[1]));
    if (say_.small_letters && plain_word)
      name[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(name[0])));
    return filled(say_.supply, name);
  }
  std::string sets_as(StepIx s) const {
    const auto& how = s && p_.step(s).supply ? p_.supply(p_.step(s).supply).sets_as : std::string();
    return how.empty() || how == "set" ? std::string(say_.set) : how;
  }
  std::string action_name(ActionIx a) const {
    if (!a) return std::string(say_.something);
    const auto& kind = p_.action(a);
    const auto verb = say_.verbs[static_cast<std::size_t>(kind.verb)];
    if (!kind.supply) return filled(say_.title, verb);
    return filled(say_.action, verb, p_.supply(kind.supply).name);
  }
  const procedure::Link* link(StepIx to, StepIx from) const {
    for (const auto& l : p_.step(to).after)
      if (l.step == from) return &l;
    return nullptr;
  }
  bool from_start(const Error& e) const {
    const auto* l = e.step && e.cause ? link(e.step, e.cause) : nullptr;
    return l != nullptr && l->from == procedure::Anchor::start;
  }
  const NeedScore* need_of(const Error& e) const {
    for (const auto& n : in_.needs)
      if (n.from == e.step && n.due_at == e.at) return &n;
    return nullptr;
  }
  const StepTrace& was(StepIx s) const { return in_.trace.steps[s.at()]; }
  bool theirs(StepIx s) const { return in_.frame.prefers_trainee(s) || was(s).by_trainee; }

  std::string about(std::string_view phrase, const Error& e) const {
    return filled(phrase, title(e.step), title(e.cause), supply_of(e.step), sets_as(e.step));
  }

  std::string what(const Error& e) const {
    std::string text = about_it(e);
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
  }

  std::string about_it(const Error& e) const {
    switch (e.kind) {
      case ErrorKind::omitted:
        return about(left(was(e.step).by), e);
      case ErrorKind::extra:
        return e.cause ? filled(say_.kept, kept(e.action), title(e.cause))
                       : filled(say_.extra, action_name(e.action));
      case ErrorKind::repeated:
        return about(say_.repeated, e);
      case ErrorKind::out_of_order:
      case ErrorKind::unsafe:
        return about(from_start(e) ? say_.before_it_began : say_.before_it_was_done, e);
      case ErrorKind::too_early:
        return about(say_.too_early, e) + so_it_came_late(e);
      case ErrorKind::expired:
        return about(say_.expired, e) + so_it_came_late(e);
      case ErrorKind::late:
        return late(e);
      case ErrorKind::overrun:
        return overrun(e);
      case ErrorKind::contaminated:
        return contaminated(e);
      case ErrorKind::uncovered:
        return about(say_.uncovered, e).append(managed_without(e));
    }
    return {};
  }

  std::string_view left(PersonIx to) const {
    if (!to) return say_.left_out;
    const bool clinician = p_.person(to).role == procedure::Role::clinician;
    return clinician ? say_.left_to_clinician : say_.left_to_others;
  }

  std::string late(const Error& e) const {
    const NeedScore* need = need_of(e);
    const Ms by = need != nullptr ? -need->lead() : Ms{0};
    const bool alone = need != nullptr && need->helped;
    const auto text = filled(alone ? say_.missed : say_.late, title(e.step), title(e.cause),
                             duration_text(by), because(e));
    return alone ? text + std::string(went_on_alone(*need)) : text;
  }

  std::string_view went_on_alone(const NeedScore& need) const {
    using Kind = procedure::Need::Kind;
    const auto kind = p_.step(need.step).needs[need.need].kind;
    if (kind == Kind::supply) return say_.fetched;
    return kind == Kind::cover ? say_.managed : say_.taken_over;
  }

  /// What came of it that something had set.
  std::string so_it_came_late(const Error& e) const {
    if (e.late_because != Cause::had_set) return {};
    for (const NeedScore& n : in_.needs) {
      if (n.step != e.cause || p_.step(n.step).needs[n.need].prepared_by != e.step) continue;
      return n.helped ? std::string(say_.got_another)
                      : filled(say_.made_again, duration_text(-n.lead()));
    }
    return {};
  }

  std::string_view managed_without(const Error& e) const {
    for (const NeedScore& n : in_.needs)
      if (n.from == e.step && n.step == e.cause && n.helped) return say_.managed;
    return {};
  }

  std::string because(const Error& e) const {
    switch (e.late_because) {
      case Cause::none:
      case Cause::had_set:
        return {};
      case Cause::stood_by:
        return std::string(say_.stood_by);
      case Cause::let_go:
        return std::string(say_.had_let_go);
      case Cause::busy:
        return std::string(say_.busy);
      case Cause::hand_full:
        return std::string(say_.hand_full);
      case Cause::not_prepared:
        return filled(say_.not_prepared, supply_of(e.step));
      case Cause::not_set_out:
        return filled(say_.not_set_out, supply_of(e.step));
    }
    return {};
  }

  std::string overrun(const Error& e) const {
    const auto* l = link(e.step, e.cause);
    const bool named = l != nullptr && !l->if_late.empty();
    return filled(say_.overrun, title(e.step), title(e.cause),
                  named ? " (" + l->if_late + ")" : "");
  }

  std::string contaminated(const Error& e) const {
    if (e.step && p_.step(e.step).verb == procedure::Verb::pass)
      return about(say_.soiled_passed, e);
    return filled(say_.soiled_gloves, e.step ? title(e.step) : std::string(say_.something_clean));
  }

  std::string why(const Error& e) const {
    if (e.step && e.cause) {
      const auto* l = link(e.step, e.cause);
      if (l != nullptr && !l->why.empty()) return l->why;
    }
    // A step's own reason says why it is done, not why before another.
    const bool own = e.kind != ErrorKind::contaminated && e.kind != ErrorKind::out_of_order;
    const StepIx reason = e.kind == ErrorKind::unsafe ? e.cause : e.step;
    if (own && reason && !p_.step(reason).why.empty()) return p_.step(reason).why;
    return std::string(say_.why[static_cast<std::size_t>(e.kind)]);
  }

  std::string instead(const Error& e) const {
    switch (e.kind) {
      case ErrorKind::omitted:
        return with_cue(e.step, std::string(say_.in_its_place));
      case ErrorKind::extra:
        return std::string(e.cause ? say_.let_go : say_.keep_free);
      case ErrorKind::repeated:
        return std::string(say_.once);
      case ErrorKind::out_of_order:
      case ErrorKind::unsafe:
        return about(say_.first_then, e);
      case ErrorKind::too_early:
        return begin_no_sooner(e);
      case ErrorKind::expired:
        return std::string(say_.all_else_first);
      case ErrorKind::late:
        return sooner(e);
      case ErrorKind::overrun:
        return about(theirs(e.step) ? say_.within_the_limit : say_.before_it_ends, e);
      case ErrorKind::contaminated:
        return std::string(say_.clean_hands);
      case ErrorKind::uncovered:
        return about(say_.keep_going, e);
    }
    return {};
  }

  std::string with_cue(StepIx s, const std::string& text) const {
    const std::string& cue = p_.step(s).cue;
    return cue.empty() ? text + "." : filled(say_.with_cue, text, cue);
  }

  std::string begin_no_sooner(const Error& e) const {
    const Ms opened = in_.hindsight[e.step.at()].opened;
    return with_cue(e.step, opened == never ? std::string(say_.lay_out)
                                            : filled(say_.lay_out_until, clock_text(opened)));
  }

  std::string sooner(const Error& e) const {
    switch (e.late_because) {
      case Cause::hand_full:
        return std::string(say_.free_a_hand);
      case Cause::let_go:
        return about(say_.keep_going, e);
      case Cause::not_prepared:
        return std::string(say_.ready_before);
      case Cause::not_set_out:
        return std::string(say_.set_out_before);
      default:
        break;
    }
    const Ms begin = in_.hindsight[e.step.at()].due - in_.hindsight[e.step.at()].takes;
    return with_cue(e.step, begin < Ms{1000} ? std::string(say_.begin_first)
                                             : filled(say_.begin_by, clock_text(begin)));
  }
};

}  // namespace

void describe(const Findings& findings, Error& error) { Sentences(findings).write(error); }

}  // namespace beforehand::scoring
