// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "stage/big_buttons.hpp"
#include "stage/input.hpp"
#include "stage/page.hpp"
#include "stage/pen.hpp"
#include "study/case_log.hpp"

namespace beforehand::stage {

/// Times a real case: a column a person, large buttons to tap what begins and ends. Every tap is
/// in the file before the next; closed at any moment, it is gone on with later. Without a protocol
/// people and steps are typed as they come, and stay as buttons.
class ObserveScreen {
 public:
  /// free: to time a case without a protocol; durations: to what all cases of this one say.
  enum class Outcome { stay, home, free, durations };

  /// The protocol must outlive the screen, or is none. `file` is the log to go on with, or to
  /// begin; empty for none. A file that cannot be written does not stop the observation: the screen
  /// says so.
  /// `in_other_words`: the protocol in every language, so that a case begun in one is gone on with
  /// in another.
  ObserveScreen(const procedure::Procedure* protocol, std::string file,
                std::vector<procedure::Procedure> in_other_words = {});

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  void draw(Pen&, const Box&);

  /// Whether a newer version of the protocol has been saved meanwhile.
  void tell_newer(bool newer) { newer_ = newer && protocol_ != nullptr; }

  bool running() const { return !paused_ && face_ == Face::timing; }
  const study::CaseLog& log() const { return log_; }
  Ms now() const { return now_; }
  /// The table written when it was finished, or empty.
  const std::string& table() const { return table_; }

 private:
  enum class Face { timing, result };
  enum class Typing { nothing, note, step, person };
  struct Slot {
    std::string text;
    bool beside = false;
  };
  struct TopLine {
    std::string text;
    Colour colour;
    TextSize size;
    Weight weight;
  };

  Outcome on_key(const Input&);
  Outcome on_press(Point);
  void on_typing(const Input&);
  Outcome on_symbol(char32_t);
  Outcome durations();
  bool may_go_free() const;
  void open_log();
  void press_slot(int button);
  void tap(study::Tap);
  void toggle(std::size_t column, const Slot&);
  void undo();
  void shift(Ms by);
  Outcome finish();
  void take_typed();
  void begin_typing(Typing, char32_t opened_by = 0);
  bool may_add_person() const;
  bool goes_beside(const std::string& text) const;
  bool seen(std::size_t step) const;
  study::CaseFigures figures() const;
  std::vector<Slot> slots(std::size_t column, std::size_t most) const;
  void add_coming(std::size_t column, std::size_t most, std::vector<Slot>&) const;
  void add_earlier(std::size_t column, std::vector<Slot>&) const;
  std::string title(const Pen&) const;

  std::vector<TopLine> top_lines(const Pen&) const;
  TextStyle clock_style(const Pen&) const;
  double beside_clock(const Pen&) const;
  double top_height(const Pen&, double width) const;
  void draw_top(Pen&, const Box&) const;
  void draw_column(Pen&, const Box&, std::size_t column);
  void draw_chart(Pen&, const Box&) const;
  void draw_hint(Pen&, const Box&) const;
  void draw_typing(Pen&, const Box&) const;
  std::vector<BarButton> bar(const Pen&) const;
  void draw_result(Pen&, const Box&);
  void write_figures(Pen&, Flow&) const;
  void write_order(Pen&, Flow&, const study::CaseFigures&) const;
  void write_notes(Pen&, Flow&) const;

  const procedure::Procedure* protocol_;
  std::vector<procedure::Procedure> in_other_words_;
  std::vector<std::string> people_;
  std::string file_, problem_, table_;
  study::CaseLog log_;
  Ms now_{0};
  std::chrono::microseconds rest_{0};
  bool paused_ = true, newer_ = false, compact_ = false;
  Face face_ = Face::timing;
  Typing typing_ = Typing::nothing;
  std::string typed_;
  char32_t opened_by_ = 0;  // the key that began the typing; its letter is none of the text
  std::size_t column_ = 0, ahead_ = 0;
  ButtonCounts rows_ = all_buttons;  // by column, as last drawn
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
