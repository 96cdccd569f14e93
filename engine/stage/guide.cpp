// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/guide.hpp"

#include <algorithm>

#include "base/time.hpp"
#include "scoring/hindsight.hpp"

namespace beforehand::stage {
namespace {

using Kind = GuideLine::Kind;
using drill::Reason;
using drill::StepState;
using procedure::Anchor;

class Guide {
 public:
  Guide(const Sitting& sitting, const Strings& t)
      : sitting_(sitting),
        t_(t),
        now_(sitting.run().now()),
        vain_(held_in_vain(sitting.procedure(), sitting.world(), sitting.trainee(),
                           sitting.ahead())) {}

  std::vector<GuideLine> lines() {
    if (!sitting_.over()) choose();
    if (first_ == nullptr) {
      const bool ends = sitting_.over() || sitting_.world().closing_at != never || !anything_left();
      if (vain_ && !sitting_.over())
        let_go();
      else
        add(Kind::nothing, t_(ends ? "coach.finished" : "coach.nothing"));
      return std::move(lines_);
    }
    headline();
    const bool letting_go_helps = vain_ && card(*first_).reason == Reason::hands_full;
    if (kind_ != Kind::soon && !can(*first_) && !letting_go_helps)
      add(Kind::but, t_("coach.but", {reason()}));
    if (vain_) let_go();
    add(Kind::why, t_("coach.why", {why()}));
    if (const auto* next = then())
      add(Kind::then, t_("coach.then", {title_of(procedure(), next->action, t_)}));
    return std::move(lines_);
  }

 private:
  const procedure::Procedure& procedure() const { return sitting_.procedure(); }
  CardNow card(const Ahead& prep) const {
    return card_now(procedure(), sitting_.world(), sitting_.trainee(), prep.action);
  }

  // What has to begin or end before it, by the step graph; what goes on now before all else.
  const procedure::Link* awaits(const Ahead& prep) const {
    const procedure::Link* found = nullptr;
    for (const auto& link : procedure().step(prep.step).after) {
      const auto& before = sitting_.world().step(link.step);
      const bool begun = link.from == Anchor::start && before.started != never;
      if (begun || sitting_.world().finished(link.step)) continue;
      if (found == nullptr || before.state == StepState::doing) found = &link;
    }
    return found;
  }

  bool anything_left() const {
    const auto& steps = procedure().steps;
    for (std::size_t i = 0; i < steps.size(); ++i)
      if (steps[i].by.front() == sitting_.trainee() && !sitting_.world().finished(StepIx{i}))
        return true;
    return false;
  }

  bool can(const Ahead& prep) const { return card(prep).possible(); }
  // Not before the score would say so too.
  bool late(const Ahead& prep) const { return prep.left(now_) < -scoring::allowance; }

  // Hands that are needed where they are cannot do it, and nothing is to be done about that.
  bool hands_tied(const Ahead& prep) const {
    return !vain_ && sitting_.world().person(sitting_.trainee()).holds.empty() &&
           card(prep).reason == Reason::hands_full;
  }

  // What somebody will wait for and can be done; else what is loose; else what cannot be done yet.
  // What is open has its turn (LookAhead).
  void choose() {
    const auto& ahead = sitting_.ahead();
    const auto open = std::find_if(ahead.begin(), ahead.end(),
                                   [&](const Ahead& prep) { return prep.open(now_); });
    const bool any = open != ahead.end();
    kind_ = Kind::now;
    if (any && (late(*open) || !hands_tied(*open))) {
      first_ = &*open;
      if (late(*open)) kind_ = Kind::late;
      return;
    }
    const auto able = std::find_if(open, ahead.end(),
                                   [&](const Ahead& prep) { return prep.open(now_) && can(prep); });
    if (able != ahead.end()) {
      first_ = &*able;
    } else if (const auto* loose = loose_now()) {
      first_ = loose;
      kind_ = Kind::loose;
    } else if (any) {
      first_ = &*open;
    } else if (!ahead.empty()) {
      first_ = &ahead.front();
      kind_ = Kind::soon;
    }
  }

  const Ahead* loose_now() const {
    for (const auto& prep : sitting_.loose()) {
      const auto now = card(prep);
      if (now.reason == Reason::none && !now.going_on) return &prep;
    }
    return nullptr;
  }

  void headline() {
    const auto action = first_->action;
    const auto what = with_key(action);
    switch (kind_) {
      case Kind::late:
        return add(kind_, t_("coach.late", {what, clock_text(-first_->left(now_))}), action);
      case Kind::loose:
        return add(kind_, t_("coach.loose", {what}), action);
      case Kind::now:
        return add(kind_, t_("coach.now", {what, clock_text(std::max(Ms{0}, first_->left(now_)))}),
                   action);
      default:
        break;
    }
    if (const auto* link = awaits(*first_))
      add(kind_,
          t_(link->from == Anchor::start ? "coach.once" : "coach.after",
             {what, procedure().step(link->step).title}),
          action);
    else
      add(kind_,
          t_("coach.later", {what, clock_text(std::max(Ms{0}, first_->window.earliest - now_))}),
          action);
  }

  std::string reason() const {
    if (hands_tied(*first_)) return t_("coach.hands-tied");
    return sentence_of(procedure(), card(*first_).reason, first_->action, t_);
  }

  std::string why() const {
    const auto& step = procedure().step(first_->step);
    return step.why.empty() && first_->window.serves ? procedure().step(first_->window.serves).title
                                                     : step.why;
  }

  const Ahead* then() const {
    for (const auto& prep : sitting_.ahead())
      if (&prep != first_) return &prep;
    const auto* loose = loose_now();
    return loose == first_ ? nullptr : loose;
  }

  void let_go() { add(Kind::let_go, t_("coach.let-go", {with_key(vain_)}), vain_); }

  // With the key of its card, so that nobody has to look for it.
  std::string with_key(ActionIx action) const {
    std::string key;
    for (const auto& card : sitting_.cards())
      if (card.action == action) key = card.keys;
    for (char& c : key)
      if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 32);
    return t_("coach.what", {title_of(procedure(), action, t_), key});
  }

  void add(Kind kind, std::string text, ActionIx action = {}) {
    lines_.push_back({kind, std::move(text), action});
  }

  const Sitting& sitting_;
  const Strings& t_;
  Ms now_;
  ActionIx vain_;
  const Ahead* first_ = nullptr;
  Kind kind_ = Kind::nothing;
  std::vector<GuideLine> lines_;
};

}  // namespace

std::vector<GuideLine> guide_of(const Sitting& sitting, const Strings& t) {
  return Guide(sitting, t).lines();
}

}  // namespace beforehand::stage
