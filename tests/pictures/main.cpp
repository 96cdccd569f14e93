// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Draws the pictures of the documents, as SVG into the folder it is given: a guided drill of the
// composite filling as somebody practised plays it, and its debrief. tools/picture calls it.
#include <filesystem>
#include <fstream>
#include <iostream>

#include "picture/svg_canvas.hpp"
#include "playing.hpp"

namespace {

using namespace beforehand;
using stage::Program;

constexpr double width = 1280, height = 720;

bool save(Program& program, const std::filesystem::path& file) {
  picture::SvgCanvas canvas(width, height, "Beforehand");
  program.draw(canvas, picture::Theme{}, width, height);
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

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: pictures FOLDER\n";
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  auto program = stage::program_on(filling_alone());
  stage::press(program, stage::Key::enter);
  stage::press(program, stage::Key::enter);
  bool drawn = false;
  for (int i = 0; i < 72'000 && program.stand() == Program::Stand::drill; ++i) {
    stage::do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
    if (drawn || !worth_a_picture(*program.sitting())) continue;
    drawn = save(program, folder / "drill.svg");
  }
  program.settle();
  const bool ended = program.stand() == Program::Stand::debrief;
  if (drawn && ended && save(program, folder / "debrief.svg")) return 0;
  std::cerr << "pictures: " << (drawn ? "no debrief" : "no moment worth a picture") << "\n";
  return 1;
}
