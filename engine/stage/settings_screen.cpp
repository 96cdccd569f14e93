// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/settings_screen.hpp"

#include <algorithm>

#include "picture/text.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Row {
  row_scale,
  row_contrast,
  row_motion,
  row_sound,
  row_language,
  row_hand,
  row_set_up,
  row_letters
};
constexpr std::size_t choice_rows = 8;

enum Id { id_back, id_defaults, id_option = 100, id_deed = 1000 };
constexpr int options_a_row = 20;
constexpr int scales[] = {100, 125, 150, 175, 200};

std::size_t scale_at(int percent) {
  std::size_t i = 0;
  while (i + 1 < std::size(scales) && scales[i] < percent) ++i;
  return i;
}

}  // namespace

std::vector<SettingsScreen::Choices> SettingsScreen::choices(const Strings& t) const {
  std::vector<Choices> rows(choice_rows);
  rows[row_scale] = {t("settings.scale"), {}, scale_at(settings_.scale_percent)};
  for (const int percent : scales)
    rows[row_scale].options.push_back(std::to_string(percent) + " %");
  rows[row_contrast] = {t("settings.contrast"),
                        {t("settings.contrast.usual"), t("settings.contrast.high")},
                        settings_.high_contrast};
  rows[row_motion] = {t("settings.motion"),
                      {t("settings.motion.full"), t("settings.motion.reduced")},
                      settings_.reduced_motion};
  rows[row_sound] = {t("settings.sound"), {t("settings.off"), t("settings.on")}, settings_.sound};
  rows[row_language] = {t("settings.language"), {}, 0};
  for (std::size_t i = 0; i < languages_.size(); ++i) {
    rows[row_language].options.push_back(languages_[i].name);
    if (languages_[i].code == settings_.language) rows[row_language].chosen = i;
  }
  rows[row_hand] = {t("settings.hand"),
                    {t("settings.hand.right"), t("settings.hand.left")},
                    settings_.left_handed};
  rows[row_set_up] = {
      t("settings.setup"), {t("settings.setup.off"), t("settings.setup.on")}, settings_.set_up};
  rows[row_letters] = {t("settings.letters"),
                       {"QWERTY", "QWERTZ", "AZERTY", "Dvorak"},
                       static_cast<std::size_t>(settings_.keys.letters)};
  return rows;
}

std::size_t SettingsScreen::row_count() const { return choice_rows + deed_count; }

SettingsScreen::Outcome SettingsScreen::set(std::size_t row, std::size_t option) {
  const Settings before = settings_;
  switch (row) {
    case row_scale:
      settings_.scale_percent = scales[std::min(option, std::size(scales) - 1)];
      break;
    case row_contrast:
      settings_.high_contrast = option == 1;
      break;
    case row_motion:
      settings_.reduced_motion = option == 1;
      break;
    case row_sound:
      settings_.sound = option == 1;
      break;
    case row_language:
      if (option < languages_.size()) settings_.language = languages_[option].code;
      break;
    case row_hand:
      settings_.left_handed = option == 1;
      break;
    case row_set_up:
      settings_.set_up = option == 1;
      break;
    case row_letters:
      settings_.keys.letters = static_cast<Letters>(std::min(option, letters_count - 1));
      break;
    default:
      break;
  }
  return settings_ == before ? Outcome::stay : Outcome::changed;
}

SettingsScreen::Outcome SettingsScreen::step(int by) {
  if (row_ >= choice_rows) return Outcome::stay;
  const auto row = choices(Strings())[row_];
  if (by < 0) return row.chosen == 0 ? Outcome::stay : set(row_, row.chosen - 1);
  return row.chosen + 1 < row.options.size() ? set(row_, row.chosen + 1) : Outcome::stay;
}

SettingsScreen::Outcome SettingsScreen::take_key(Key key) {
  asking_ = false;
  const Settings before = settings_;
  settings_.keys.put(static_cast<Deed>(row_ - choice_rows), key);
  return settings_ == before ? Outcome::stay : Outcome::changed;
}

SettingsScreen::Outcome SettingsScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) return on_press({input.x, input.y});
  if (input.kind != Input::Kind::key) return Outcome::stay;
  if (asking_) return word(input.key).empty() ? Outcome::stay : take_key(input.key);
  return on_key(input);
}

SettingsScreen::Outcome SettingsScreen::on_key(const Input& input) {
  switch (plain_key(input.key)) {
    case Key::escape:
    case Key::settings:
      return Outcome::back;
    case Key::up:
    case Key::back_tab:
      if (row_ > 0) --row_;
      break;
    case Key::down:
    case Key::tab:
      if (row_ + 1 < row_count()) ++row_;
      break;
    case Key::left:
      return step(-1);
    case Key::right:
      return step(1);
    case Key::enter:
    case Key::space:
      asking_ = row_ >= choice_rows;
      break;
    default:
      break;
  }
  return Outcome::stay;
}

SettingsScreen::Outcome SettingsScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  asking_ = false;
  if (id == id_back) return Outcome::back;
  if (id == id_defaults) {
    const auto language = settings_.language;
    settings_ = {};
    settings_.language = language;
    return Outcome::changed;
  }
  if (id >= id_deed) {
    row_ = choice_rows + static_cast<std::size_t>(id - id_deed);
    asking_ = true;
  } else if (id >= id_option) {
    row_ = static_cast<std::size_t>((id - id_option) / options_a_row);
    return set(row_, static_cast<std::size_t>((id - id_option) % options_a_row));
  }
  return Outcome::stay;
}

void SettingsScreen::draw(Pen& outer, const Box& window) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double widest = std::min(window.width, pen.px(1200));
  const Box box{window.centre().x - widest / 2, window.y, widest, window.height};
  const double gap = pen.px(12), bar = button_height(pen) + 2 * gap;
  pen.canvas.text({box.x + gap, box.y + pen.px(38)}, pen.t("settings.title"),
                  pen.style(TextSize::title, pen.ink().accent, Weight::bold));
  const Box card{box.x + gap, box.y + pen.px(52), box.width - 2 * gap,
                 box.height - pen.px(52) - bar};
  const Box view = panel(pen, card);
  const double row = pen.px(48);
  scroll_.view = view.height;
  scroll_.content = row * static_cast<double>(row_count()) + pen.px(40);
  const double top = row * static_cast<double>(row_) + (row_ >= choice_rows ? pen.px(40) : 0);
  scroll_.offset = std::clamp(scroll_.offset, std::min(top, top + row - view.height + pen.px(8)),
                              std::max(0.0, top - pen.px(4)));
  scroll_.move(0);
  {
    const picture::Clip clip(pen.canvas, view.inset(-pen.px(5)));
    const auto rows = choices(pen.t);
    double y = view.y - scroll_.offset;
    const double width = view.width - pen.px(14);
    for (std::size_t i = 0; i < row_count(); ++i, y += row) {
      if (i == choice_rows) {
        heading(pen, {view.x, y + pen.px(6)}, width, pen.t("settings.keys"));
        y += pen.px(40);
      }
      const Box line{view.x, y, width, row - pen.px(8)};
      if (!line.overlaps(view)) continue;
      if (i < choice_rows)
        draw_choice(pen, line, rows[i], i);
      else
        draw_deed(pen, line, i - choice_rows);
    }
  }
  scroll_bar(pen, view, scroll_);
  draw_bar(pen, {box.x + gap, box.bottom() - bar + gap, box.width - 2 * gap, button_height(pen)});
}

void SettingsScreen::draw_choice(Pen& pen, const Box& box, const Choices& row, std::size_t index) {
  const double name = box.width * 0.3;
  auto style = pen.style(TextSize::body, pen.ink().ink);
  style.level = picture::Level::middle;
  pen.canvas.text({box.x + pen.px(4), box.centre().y},
                  picture::shorten(pen.canvas, row.name, name - pen.px(12), style.size), style);
  switcher(pen, {box.x + name, box.y, box.width - name - pen.px(4), box.height}, row.options,
           row.chosen, row_ == index, id_option + static_cast<int>(index) * options_a_row);
}

void SettingsScreen::draw_deed(Pen& pen, const Box& box, std::size_t deed) {
  const auto& ink = pen.ink();
  const bool here = row_ == choice_rows + deed, asking = here && asking_;
  pen.canvas.rectangle(box, {asking ? ink.caution_soft : ink.well, {ink.edge, pen.px(1)}},
                       pen.px(7));
  if (here) focus_ring(pen, box, pen.px(7));
  pen.hits.add(box, id_deed + static_cast<int>(deed));
  double right = box.right() - pen.px(8);
  if (!asking)
    for (const Key key : {settings_.keys.button(static_cast<Deed>(deed)),
                          settings_.keys.key(static_cast<Deed>(deed))}) {
      const auto cap = cap_of(key, pen.t);
      right -= key_cap_width(pen, cap);
      key_cap(pen, {right, box.centre().y}, cap);
      right -= pen.px(8);
    }
  auto style = pen.style(TextSize::body, asking ? ink.caution : ink.ink);
  style.level = picture::Level::middle;
  const auto name = pen.t("deed." + std::string(word(static_cast<Deed>(deed))));
  const auto text = asking ? pen.t("settings.press-key", {name}) : name;
  pen.canvas.text({box.x + pen.px(10), box.centre().y},
                  picture::shorten(pen.canvas, text, right - box.x - pen.px(14), style.size),
                  style);
}

void SettingsScreen::draw_bar(Pen& pen, const Box& box) {
  const double back = button_width(pen, pen.t("briefing.back"), pen.t("key.escape"));
  button(pen, {box.x, box.y, back, box.height}, pen.t("briefing.back"), pen.t("key.escape"), {},
         id_back);
  const double defaults = button_width(pen, pen.t("settings.defaults"), "");
  button(pen, {box.right() - defaults, box.y, defaults, box.height}, pen.t("settings.defaults"), "",
         {}, id_defaults);
  const double left = box.x + back + pen.px(16), width = box.width - back - defaults - pen.px(32);
  const auto& said = problem_.empty() ? pen.t("settings.about") : problem_;
  const double height =
      picture::paragraph_height(pen.canvas, said, width, pen.size(TextSize::label));
  paragraph(pen, {left, std::max(box.y, box.centre().y - height / 2)}, width, said, TextSize::label,
            problem_.empty() ? pen.ink().ink_soft : pen.ink().danger, Weight::regular,
            box.bottom() + pen.px(4));
}

}  // namespace beforehand::stage
