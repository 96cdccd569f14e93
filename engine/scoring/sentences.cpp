// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <cctype>
#include <string>

#include "procedure/procedure.hpp"
#include "scoring/errors.hpp"

// Errors in words. The scenario's own texts come first; where it is silent, the rule in general.

namespace beforehand::scoring {
namespace {

using procedure::Step;

class Sentences {
 public:
  explicit Sentences(const Findings& in) : in_(in), p_(in.frame.procedure) {}

  void write(Error& e) const {
    e.what = what(e);
    e.why = why(e);
    e.instead = instead(e);
  }

 private:
  const Findings& in_;
  const Procedure& p_;

  std::string title(StepIx s) const {
    return s ? "\"" + p_.step(s).title + "\"" : std::string("a step");
  }
  std::string supply_of(StepIx s) const {
    if (!s || !p_.step(s).supply) return "it";
    std::string name = p_.supply(p_.step(s).supply).name;
    const bool plain_word = name.size() > 1 && std::islower(static_cast<unsigned char>(name[1]));
    if (plain_word) name[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(name[0])));
    return "the " + name;
  }
  std::string at_start(StepIx s) const {
    std::string text = supply_of(s);
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
  }
  std::string sets_as(StepIx s) const {
    return s && p_.step(s).supply ? p_.supply(p_.step(s).supply).sets_as : std::string("set");
  }
  std::string action_name(ActionIx a) const {
    if (!a) return "Something";
    const auto& kind = p_.action(a);
    const std::string verb(procedure::word(kind.verb));
    return "\"" + verb + (kind.supply ? " " + p_.supply(kind.supply).name : "") + "\"";
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

  std::string what(const Error& e) const {
    switch (e.kind) {
      case ErrorKind::omitted:
        return title(e.step) + (was(e.step).by ? " was left to somebody else." : " was left out.");
      case ErrorKind::extra:
        return action_name(e.action) + " was done though nothing asked for it.";
      case ErrorKind::repeated:
        return title(e.step) + " was done once more than needed.";
      case ErrorKind::out_of_order:
      case ErrorKind::unsafe:
        return title(e.step) + " was begun before " + title(e.cause) +
               (from_start(e) ? " had begun." : " was done.");
      case ErrorKind::too_early:
        return title(e.step) + " came too early: " + supply_of(e.step) + " had " + sets_as(e.step) +
               " before " + title(e.cause) + " could use it up.";
      case ErrorKind::expired:
        return at_start(e.step) + " had " + sets_as(e.step) + " before " + title(e.cause) +
               " was over.";
      case ErrorKind::late:
        return late(e);
      case ErrorKind::overrun:
        return overrun(e);
      case ErrorKind::contaminated:
        return contaminated(e);
      case ErrorKind::uncovered:
        return title(e.step) + " stopped while " + title(e.cause) + " still went on.";
    }
    return {};
  }

  std::string late(const Error& e) const {
    const NeedScore* need = need_of(e);
    const Ms by = need != nullptr ? -need->lead() : Ms{0};
    std::string text =
        title(e.step) + " came " + duration_text(by) + " after " + title(e.cause) + " wanted it";
    if (need != nullptr && need->helped)
      text = title(e.step) + " did not come in time for " + title(e.cause) +
             ", which had to do without you";
    return text + because(e) + ".";
  }

  std::string because(const Error& e) const {
    switch (e.late_because) {
      case Cause::none:
        return "";
      case Cause::stood_by:
        return "; you could have begun it sooner";
      case Cause::busy:
        return "; you were at something else when it had to be begun";
      case Cause::hand_full:
        return ", because no hand was free for it";
      case Cause::not_prepared:
        return ", because " + supply_of(e.step) + " was not made ready yet";
      case Cause::not_set_out:
        return ", because " + supply_of(e.step) + " was not set out yet";
      case Cause::had_set:
        return ", because " + supply_of(e.step) + " had " + sets_as(e.step);
    }
    return "";
  }

  std::string overrun(const Error& e) const {
    const auto* l = link(e.step, e.cause);
    const std::string name =
        l != nullptr && !l->if_late.empty() ? " (" + l->if_late + ")" : std::string();
    return title(e.step) + " came too long after " + title(e.cause) + name + ".";
  }

  std::string contaminated(const Error& e) const {
    if (e.step && p_.step(e.step).verb == procedure::Verb::pass)
      return at_start(e.step) + " was passed though it was soiled.";
    return (e.step ? title(e.step) : std::string("Something clean")) +
           " was done with soiled gloves.";
  }

  std::string why(const Error& e) const {
    if (e.step && e.cause) {
      const auto* l = link(e.step, e.cause);
      if (l != nullptr && !l->why.empty()) return l->why;
    }
    const StepIx reason = of_cause(e) ? e.cause : e.step;
    if (reason && !p_.step(reason).why.empty() && e.kind != ErrorKind::contaminated)
      return p_.step(reason).why;
    return general_why(e.kind);
  }

  static bool of_cause(const Error& e) {
    return e.kind == ErrorKind::out_of_order || e.kind == ErrorKind::unsafe;
  }

  static std::string general_why(ErrorKind kind) {
    switch (kind) {
      case ErrorKind::omitted:
        return "The next step builds on it.";
      case ErrorKind::extra:
      case ErrorKind::repeated:
        return "It takes a hand and time that the next thing needs.";
      case ErrorKind::out_of_order:
        return "Done out of turn it has no effect, or undoes another.";
      case ErrorKind::too_early:
      case ErrorKind::expired:
        return "What has set cannot be used and must be made again.";
      case ErrorKind::late:
        return "The clinician stands still, and the patient waits.";
      case ErrorKind::overrun:
        return "The time between the two decides whether it works.";
      case ErrorKind::contaminated:
        return "What soiled gloves touch is no longer clean.";
      case ErrorKind::unsafe:
        return "It can harm the patient.";
      case ErrorKind::uncovered:
        return "The clinician has to stop until it goes on.";
    }
    return {};
  }

  std::string instead(const Error& e) const {
    switch (e.kind) {
      case ErrorKind::omitted:
        return with_cue(e.step, "Do it in its place");
      case ErrorKind::extra:
        return "Keep the hand free, or make the next thing ready.";
      case ErrorKind::repeated:
        return "Once is enough; go on to the next thing.";
      case ErrorKind::out_of_order:
      case ErrorKind::unsafe:
        return "First " + title(e.cause) + ", then " + title(e.step) + ".";
      case ErrorKind::too_early:
        return begin_no_sooner(e);
      case ErrorKind::expired:
        return "Have everything else ready before you make it ready.";
      case ErrorKind::late:
        return sooner(e);
      case ErrorKind::overrun:
        return "Have it ready before " + title(e.cause) + " ends.";
      case ErrorKind::contaminated:
        return "Clean your hands or change gloves first.";
      case ErrorKind::uncovered:
        return "Keep it going until " + title(e.cause) + " is over.";
    }
    return {};
  }

  std::string with_cue(StepIx s, const std::string& text) const {
    const std::string& cue = p_.step(s).cue;
    return cue.empty() ? text + "." : text + "; your cue: " + cue;
  }

  std::string begin_no_sooner(const Error& e) const {
    const Ms opened = in_.hindsight[e.step.at()].opened;
    const std::string text =
        opened == never
            ? "Lay it out, and make it ready only shortly before it is used"
            : "Lay it out, and make it ready from " + clock_text(opened) + " on, not sooner";
    return with_cue(e.step, text);
  }

  std::string sooner(const Error& e) const {
    switch (e.late_because) {
      case Cause::hand_full:
        return "Free a hand before it is wanted: take back or put down first.";
      case Cause::not_prepared:
        return "Make it ready while the step before still goes on.";
      case Cause::not_set_out:
        return "Set it out before the step before begins.";
      default:
        break;
    }
    const Ms begin = in_.hindsight[e.step.at()].due - in_.hindsight[e.step.at()].takes;
    return with_cue(e.step, "Begin it by " + clock_text(begin));
  }
};

}  // namespace

void describe(const Findings& findings, Error& error) { Sentences(findings).write(error); }

}  // namespace beforehand::scoring
