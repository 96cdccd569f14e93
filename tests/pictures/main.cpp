// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Draws screens with no window and no clock, as SVG into a folder. tools/picture calls it.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>

#include "every_screen.hpp"
#include "picture/svg_canvas.hpp"
#include "playing.hpp"
#include "stage/app.hpp"

namespace {

using namespace beforehand;
using stage::Program;

constexpr const char* use =
    "usage: pictures FOLDER\n       pictures FOLDER screens [LANGUAGE [TOUR]]\n";

bool save(Program& program, const picture::Theme& theme, int width, int height,
          const std::filesystem::path& file) {
  picture::SvgCanvas canvas(width, height, "Beforehand");
  program.draw(canvas, theme, width, height);
  std::ofstream out(file);
  out << canvas.str();
  return out.good();
}

/// The etched tooth, suction held, while something is handed over.
bool worth_a_picture(const stage::Sitting& sitting) {
  const auto& world = sitting.world();
  if (!world.field.test(static_cast<std::size_t>(procedure::Field::etched))) return false;
  bool held = false, handed = false;
  for (const auto& doing : world.person(sitting.trainee()).doing) {
    if (!doing.action) continue;
    const auto verb = sitting.procedure().action(doing.action).verb;
    held |= doing.cover;
    handed |= verb == procedure::Verb::pass &&
              (world.now - doing.started) * 2 > doing.ends - doing.started;
  }
  return held && handed;
}

std::vector<stage::ShelfItem> filling_alone() {
  auto shelf = stage::shipped_shelf();
  std::erase_if(shelf, [](const stage::ShelfItem& item) {
    return !item.procedure || item.procedure->id != "class-ii-composite";
  });
  return shelf;
}

/// The documents' own: a guided drill of the composite filling as somebody practised plays it, and
/// its debrief.
int draw_for_documents(const std::filesystem::path& folder) {
  auto program = stage::program_on(filling_alone());
  stage::press(program, stage::Key::enter);
  stage::press(program, stage::Key::enter);
  bool drawn = false;
  for (int i = 0; i < 72'000 && program.stand() == Program::Stand::drill; ++i) {
    stage::do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
    if (drawn || !worth_a_picture(*program.sitting())) continue;
    drawn = save(program, {}, 1280, 720, folder / "drill.svg");
  }
  program.settle();
  const bool ended = program.stand() == Program::Stand::debrief;
  if (drawn && ended && save(program, {}, 1280, 720, folder / "debrief.svg")) return 0;
  std::cerr << "pictures: " << (drawn ? "no debrief" : "no moment worth a picture") << "\n";
  return 1;
}

/// Every screen at each of the usual sizes and scales, and once in high contrast; what is cut short
/// there goes to stdout.
int draw_screens(const std::filesystem::path& folder, const std::string& language,
                 const std::string& only) {
  bool good = true;
  const auto draw = [&](Program& program, const std::string& name) {
    const auto at = [&](const stage::Look& look, bool contrast) {
      picture::Theme theme;
      if (contrast) theme.palette = picture::high_contrast();
      theme.scale = stage::fitting_scale(look.scale, look.width, look.height, program.needs());
      const auto size = std::to_string(look.height) + "-" + std::to_string(int(look.scale * 100));
      const auto file = name + "." + language + "." + size + (contrast ? "-contrast" : "") + ".svg";
      good &= save(program, theme, look.width, look.height, folder / file);
      for (const auto& text : stage::look_at(program, look.width, look.height, theme.scale).cut())
        if (!contrast) std::cout << name << " " << size << ": " << text << "\n";
    };
    for (const auto& look : stage::usual_looks) at(look, false);
    at(stage::usual_looks[0], true);
  };
  for (const auto& tour : stage::every_screen())
    if (only.empty() || only == tour.name) tour.walk(language, draw);
  if (!good) std::cerr << "pictures: not everything could be written to " << folder << "\n";
  return good ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> given(argv + 1, argv + argc);
  const bool screens = given.size() >= 2 && given.size() <= 4 && given[1] == "screens";
  if (given.size() != 1 && !screens) {
    std::cerr << use;
    return 2;
  }
  std::filesystem::create_directories(given[0]);
  if (!screens) return draw_for_documents(given[0]);
  return draw_screens(given[0], given.size() > 2 ? given[2] : "en",
                      given.size() > 3 ? given[3] : "");
}
