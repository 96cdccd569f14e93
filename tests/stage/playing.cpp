// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "playing.hpp"

#include <unistd.h>
#include <SFML/System/String.hpp>

#include <algorithm>
#include <memory>

namespace beforehand::stage {

namespace fs = std::filesystem;

Strings in_language(const std::string& code) {
  return Strings::load(PROJECT_DIR "/assets/strings/" + code + ".txt");
}

Strings english() { return in_language("en"); }

std::vector<ShelfItem> tiny_shelf() {
  const std::string file = PROJECT_DIR "/tests/scenarios/good/tiny.yaml";
  return {read_item({file, "", ""}, "en")};
}

std::vector<ShelfItem> shipped_shelf() { return read_shelf(PROJECT_DIR "/scenarios"); }

TemporaryFolder::TemporaryFolder() {
  std::string name = (fs::temp_directory_path() / "beforehand-test-XXXXXX").string();
  path_ = ::mkdtemp(name.data());
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code failed;
  fs::remove_all(path_, failed);
}

SettingsReading drill_alone(const std::string& language) {
  SettingsReading reading;
  reading.settings.language = language;
  reading.settings.set_up = false;
  reading.settings.lesson_known = true;
  return reading;
}

Program program_on(std::vector<ShelfItem> shelf, const TemporaryFolder* recordings,
                   const std::string& language, bool tasks) {
  Outside outside;
  outside.scenarios = "scenarios";
  const auto count = std::make_shared<int>(0);
  outside.new_recording = [recordings, count](const std::string& scenario, std::uint64_t) {
    return recordings == nullptr ? std::string()
                                 : *recordings / (scenario + std::to_string(++*count) + ".jsonl");
  };
  outside.new_seed = [] { return std::uint64_t{7}; };
  outside.languages = {{"en", "English"}, {"es", "Español"}};
  outside.strings_in = in_language;
  auto settings = drill_alone(language);
  settings.settings.set_up = tasks;
  return Program(std::move(shelf), in_language(language), std::move(outside), {},
                 std::move(settings));
}

records::Clock ticking() {
  return [t = records::Moment{std::chrono::milliseconds{1'772'442'000'000}}]() mutable {
    return t += std::chrono::seconds{1};
  };
}

void press(Program& program, Key key) { program.handle(Input::of_key(key)); }

void type(Program& program, const std::string& text) {
  for (const char32_t symbol : sf::String::fromUtf8(text.begin(), text.end())) {
    program.handle(Input::of_symbol(symbol));
    program.handle(Input::of_text(symbol));
  }
}

void obey_lesson(Program& program) {
  const auto about = program.drill()->teacher()->about();
  const auto& cards = program.sitting()->cards();
  const auto card =
      std::find_if(cards.begin(), cards.end(), [&](const auto& c) { return c.action == about; });
  switch (*program.drill()->teacher()->asks()) {
    case Lesson::mark:
      press(program, Key::down);
      return press(program, Key::escape);
    case Lesson::break_off:
      return press(program, Key::backspace);
    case Lesson::pause:
    case Lesson::go_on:
      return press(program, Key::space);
    case Lesson::pace:
      return press(program, Key::left);
    case Lesson::help:
      press(program, Key::help);
      return press(program, Key::escape);
    case Lesson::welcome:
    case Lesson::farewell:
      return press(program, Key::enter);
    default:
      return type(program, card->keys);
  }
}

std::string urgent_keys(const Program& program) {
  const auto& sitting = *program.sitting();
  for (const auto& prep : sitting.ahead()) {
    const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), prep.action);
    if (!prep.open(sitting.run().now()) || now.held || now.lined_up ||
        now.reason != drill::Reason::none)
      continue;
    for (const auto& card : sitting.cards())
      if (card.action == prep.action) return card.keys;
  }
  return {};
}

bool do_what_is_urgent(Program& program) {
  const auto keys = urgent_keys(program);
  type(program, keys);
  return !keys.empty();
}

bool play_to_debrief(Program& program) {
  constexpr std::chrono::milliseconds tenth{100};
  for (int i = 0; i < 72'000 && program.stand() == Program::Stand::drill; ++i) {
    do_what_is_urgent(program);
    program.pass(tenth);
  }
  program.pass(Program::deaf_after_a_drill);
  return program.stand() == Program::Stand::debrief;
}

Seen look_at(Program& program, double width, double height, double scale) {
  picture::Theme theme;
  theme.scale = scale;
  return look_at(program, width, height, theme, false);
}

Seen look_at(Program& program, double width, double height, const picture::Theme& theme,
             bool grounds) {
  AuditCanvas canvas(width, height, grounds);
  program.draw(canvas, theme, width, height);
  return canvas.seen();
}

bool shows(Program& program, const std::string& text) {
  return look_at(program, 1280, 720, 1).shows(text);
}

bool press_on(Program& program, const std::string& text) {
  const auto screen = look_at(program, 1280, 720, 1);
  const auto press = [&](auto is_it) {
    const auto found = std::find_if(screen.texts.begin(), screen.texts.end(), is_it);
    if (found == screen.texts.end()) return false;
    const auto centre = found->visible.centre();
    program.handle(Input::of_press(centre.x, centre.y));
    return true;
  };
  return press([&](const Seen::Text& shown) { return shown.line == text; }) ||
         press([&](const Seen::Text& shown) { return shown.line.find(text) != std::string::npos; });
}

}  // namespace beforehand::stage
